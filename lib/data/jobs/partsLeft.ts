import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { quantityText } from "@/lib/schemas/quantity";
import { releaseOneIn, useReservedIn } from "../stock/reservations";

/** What was said of a reserved part: used, or not used and why. */
export interface PartSaid {
  readonly reservationId: number;
  readonly used: boolean;
  readonly why: string;
}

const PROMISED = {
  id: true,
  stepId: true,
  wantedMilli: true,
  reservedMilli: true,
  usedMilli: true,
  part: { select: { code: true, name: true, unit: true } },
  step: { select: { position: true, name: true, state: true, reason: true } },
} as const;

function reservedIn(tx: ShopTx, where: { jobId: number } | { stepId: number }) {
  return tx.reservation.findMany({
    where: { ...where, state: "held" },
    select: PROMISED,
    orderBy: { id: "asc" },
    take: 200,
  });
}

/**
 * Accounts for the parts reserved for a step: each is used now, or given back with the reason. Refuses with all of which nothing
 * was said.
 */
export async function accountForIn(
  tx: ShopTx,
  shop: ShopHandle,
  stepId: number,
  said: readonly PartSaid[],
): Promise<void> {
  const reserved = await reservedIn(tx, { stepId });
  const fields: Record<string, string> = {};
  for (const one of reserved) {
    const answer = said.find((each) => each.reservationId === one.id);
    if (!answer) fields[`parts.${one.id}`] = `Say whether ${one.part.name} (${one.part.code}) was used.`;
    else if (answer.used && one.reservedMilli === 0)
      fields[`parts.${one.id}`] =
        `Nothing of ${one.part.code} is held for this job: receive it, or say why it was not used.`;
    else if (!answer.used && answer.why.length < 3) fields[`why.${one.id}`] = "Say why, in a few words.";
  }
  const [first] = Object.values(fields);
  if (first)
    throw new Refusal(
      first,
      "Parts reserved for this step are used here, or free again with a reason.",
      fields,
    );
  for (const one of reserved) {
    const answer = said.find((each) => each.reservationId === one.id);
    const rest = one.wantedMilli - one.usedMilli - (answer?.used ? one.reservedMilli : 0);
    if (answer?.used)
      // biome-ignore lint/correctness/useHookAtTopLevel: parts are used here, no React hook
      await useReservedIn(tx, shop, { reservationId: one.id, quantityMilli: one.reservedMilli, stepId });
    if (!answer?.used || rest > 0)
      await releaseOneIn(tx, shop, one.id, answer?.used ? "There were not more of it." : (answer?.why ?? ""));
  }
}

/**
 * Refuses to finish a job that still has parts reserved for it. What a skipped step held goes back with the reason of the skip.
 */
export async function demandAccountedIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  for (const one of await reservedIn(tx, { jobId })) {
    if (one.step?.state === "skipped") {
      await releaseOneIn(tx, shop, one.id, `Step skipped: ${one.step.reason}`);
      continue;
    }
    const left = quantityText(one.wantedMilli - one.usedMilli, one.part.unit);
    throw new Refusal(
      `${left} × ${one.part.code} ${one.part.name} is reserved for this job and not accounted for.`,
      one.step
        ? `Say on step ${one.step.position}, “${one.step.name}”, whether it was used.`
        : "Use it, or give it back with a reason, under the job's parts.",
      {},
      "conflict",
    );
  }
}

/** Gives a reserved part back, or uses all that is held of it, outside any step. */
export async function accountForOne(
  shop: ShopHandle,
  input: { jobId: number; reservationId: number; used: boolean; why: string },
): Promise<void> {
  await shop.write(async (tx) => {
    const found = await tx.reservation.findFirst({
      where: { id: input.reservationId, jobId: input.jobId, state: "held" },
      select: PROMISED,
    });
    if (!found)
      throw new Refusal(
        "This part is no longer reserved for the job.",
        "Look at the job again.",
        {},
        "conflict",
      );
    if (input.used && found.reservedMilli === 0)
      throw new Refusal(`Nothing of ${found.part.code} is held for this job.`, "Receive it first.");
    if (!input.used && input.why.length < 3)
      throw new Refusal("Say why it was not used.", "A few words are enough.", { why: "Say why." });
    if (!input.used) return releaseOneIn(tx, shop, found.id, input.why);
    // biome-ignore lint/correctness/useHookAtTopLevel: parts are used here, no React hook
    await useReservedIn(tx, shop, { reservationId: found.id, quantityMilli: found.reservedMilli });
    if (found.wantedMilli > found.usedMilli + found.reservedMilli)
      await releaseOneIn(tx, shop, found.id, "There were not more of it.");
  });
}
