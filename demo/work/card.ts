import { type CardStep, getCard } from "@/lib/data/jobs/card";
import { passStep } from "@/lib/data/jobs/pass";
import { startTime, stopTime } from "@/lib/data/jobs/time/run";
import { useReserved as takeReserved } from "@/lib/data/stock/reservations";
import type { Role } from "@/lib/domain/access/permissions";
import type { Stage } from "../stage";
import type { Chance } from "./chance";

export interface Shift {
  readonly jobId: number;
  readonly role: Role;
  readonly from: Date;
  readonly chance: Chance;
  /** Steps to pass before the work is laid down; all but the ride when left out. */
  readonly steps?: number;
  /** A hold point to fail by its name, with what is measured there. */
  readonly fail?: { readonly holdPoint: string; readonly value: number };
  /** False leaves the time running. */
  readonly stop?: boolean;
  /** True where the person's time was taken for the job as a whole, not step by step. */
  readonly wholeJob?: boolean;
}

/** Works a card step by step with time running, as far as the shift says; yields the moment of each act and returns the last. */
export async function* workCard(stage: Stage, shift: Shift): AsyncGenerator<Date, Date, void> {
  const { jobId, role, chance } = shift;
  const card = await getCard(stage.shop.as(role, shift.from), jobId);
  const todo = (card?.steps ?? []).filter((step) => step.state === "todo" && step.kind !== "ride");
  let at = shift.from;
  yield at;
  const onStep = (step: CardStep | undefined) => (shift.wholeJob ? { jobId } : { jobId, stepId: step?.id });
  await startTime(stage.shop.as(role, at), onStep(todo[0]));
  for (const step of todo.slice(0, shift.steps ?? todo.length)) {
    const minutes = Math.max(1, Math.round((step.minutes * chance.between(82, 122)) / 100));
    const { breaks, end } = stage.calendar.worked(at, minutes);
    for (const pause of breaks) {
      yield pause.from;
      await stopOwn(stage, pause.from, role, jobId);
      yield pause.to;
      await startTime(stage.shop.as(role, pause.to), onStep(step));
    }
    at = end;
    yield at;
    if (!(await passOne(stage, at, shift, step))) break;
  }
  if (shift.stop ?? true) await stopOwn(stage, at, role, jobId);
  return at;
}

async function stopOwn(stage: Stage, at: Date, role: Role, jobId: number): Promise<void> {
  const shop = stage.shop.as(role, at);
  const running = await shop.read.timeEntry.findFirst({
    where: { staffId: shop.by.staffId ?? 0, jobId, endedAt: null },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  if (running) await stopTime(shop, { entryId: running.id });
}

async function passOne(stage: Stage, at: Date, shift: Shift, step: CardStep): Promise<boolean> {
  const shop = stage.shop.as(shift.role, at);
  for (const part of step.parts)
    if (part.reservedMilli > 0)
      await takeReserved(shop, {
        reservationId: part.id,
        quantityMilli: part.reservedMilli,
        stepId: step.id,
      });
  const readings = step.holdPoints
    .filter((hold) => hold.kind === "reading")
    .map((hold) => ({
      holdPointId: hold.id,
      value: shift.fail?.holdPoint === hold.name ? shift.fail.value : measured(hold, shift.chance),
      ...(hold.asksCarburettor ? { carburettor: shift.chance.between(1, 2) } : {}),
    }));
  const ids = (kind: string) => step.holdPoints.filter((hold) => hold.kind === kind).map((hold) => hold.id);
  const passed = await passStep(shop, {
    stepId: step.id,
    version: step.version,
    readings,
    checks: ids("check"),
    signatures: ids("signature"),
  });
  return passed === "passed";
}

/** A reading inside its limits, on its own increment. */
function measured(
  hold: { low: number | null; high: number | null; increment: number | null },
  chance: Chance,
): number {
  const low = hold.low ?? 0;
  const by = hold.increment ?? 1;
  const count = Math.floor(((hold.high ?? low) - low) / by + 1e-9);
  return Number(
    (low + by * chance.between(Math.min(1, count), Math.max(count - 1, Math.min(1, count)))).toFixed(3),
  );
}
