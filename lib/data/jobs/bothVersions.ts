import type { ShopHandle } from "@/lib/db/shop";
import { JOB_WORDS } from "@/lib/schemas/jobWords";
import { quantityText } from "@/lib/schemas/quantity";
import { clockIn } from "../common/zone";
import { staffNames } from "./people";
import { clockOf } from "./time/clock";

/** What a device sent, as the form's fields. */
export interface SentAct {
  readonly jobId: number | null;
  readonly stepId: number | null;
  readonly reservationId: number | null;
  readonly fields: readonly (readonly [name: string, value: string])[];
}

const STEP = {
  name: true,
  state: true,
  doneAt: true,
  doneBy: true,
  reason: true,
  holdPoints: {
    select: {
      id: true,
      name: true,
      unit: true,
      passed: true,
      readings: { select: { value: true }, orderBy: { id: "desc" as const }, take: 1 },
    },
    orderBy: { position: "asc" as const },
    take: 20,
  },
} as const;

/** An act that was refused, line by line: as the device has it, and what the shop has of the same job, step and part. */
export async function bothVersions(
  shop: ShopHandle,
  sent: SentAct,
): Promise<{ mine: string[]; theirs: string[] }> {
  const [job, step, reservation, clock, names] = await Promise.all([
    sent.jobId === null
      ? null
      : shop.read.job.findUnique({ where: { id: sent.jobId }, select: { number: true, state: true } }),
    sent.stepId === null ? null : shop.read.step.findUnique({ where: { id: sent.stepId }, select: STEP }),
    sent.reservationId === null
      ? null
      : shop.read.reservation.findUnique({
          where: { id: sent.reservationId },
          select: {
            reservedMilli: true,
            usedMilli: true,
            part: { select: { name: true, code: true, unit: true } },
          },
        }),
    clockIn(shop.read),
    staffNames(shop),
  ]);
  const holds = step?.holdPoints ?? [];
  const holdOf = (id: string) => holds.find((hold) => String(hold.id) === id);
  const mine = sent.fields.flatMap(([name, value]) => {
    const [kind, id = ""] = name.split(".");
    const hold = holdOf(kind === "readings" ? id : value);
    if (kind === "readings" && hold && value.trim() !== "")
      return [`${hold.name}: ${value} ${hold.unit}`.trim()];
    if ((name === "checks[]" || name === "signatures[]") && hold) return [`${hold.name}: yes`];
    return (name === "text" || name === "reason") && value !== "" ? [value] : [];
  });
  const theirs: string[] = [];
  if (job && job.state !== "inWork") theirs.push(`Job ${job.number} is ${JOB_WORDS[job.state].word}.`);
  if (step) {
    const who = (step.doneBy !== null && names.get(step.doneBy)) || "someone";
    theirs.push(
      step.doneAt
        ? `“${step.name}” was ${step.state === "skipped" ? "skipped" : "passed"} by ${who} on ${clockOf(step.doneAt, clock)}.`
        : `“${step.name}” is still to do.`,
    );
    if (step.reason) theirs.push(step.reason);
  }
  for (const hold of holds) {
    const [last] = hold.readings;
    if (last)
      theirs.push(`${hold.name}: ${last.value === null ? "yes" : `${last.value} ${hold.unit}`}`.trim());
  }
  if (reservation) {
    const { part } = reservation;
    theirs.push(
      `${part.name} ${part.code}: ${quantityText(reservation.usedMilli, part.unit)} used, ${quantityText(reservation.reservedMilli, part.unit)} held for the job.`,
    );
  }
  return { mine, theirs };
}
