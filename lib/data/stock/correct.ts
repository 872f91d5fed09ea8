import { once } from "@/lib/db/once";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayOf, instantOf } from "@/lib/domain/schedule/localTime";
import { zoneIn } from "../common/zone";
import { recordMoveIn } from "./moves";
import { demandQuantity } from "./quantity";

export interface CorrectInput {
  moveId: number;
  /** What the move should have been, without a sign; 0 when it never happened. */
  rightMilli: number;
  why: string;
  key?: string | undefined;
}

/**
 * Puts a wrong move right with a new one of the difference, dated as the wrong one was and in its bin: the ledger only grows.
 * A use is put right for its job, by more use or a return; anything else by a count. Returns the new move's id.
 */
export async function correctMove(shop: ShopHandle, input: CorrectInput): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "put a move right", input, async () => {
      const move = await tx.move.findUnique({
        where: { id: input.moveId },
        select: {
          partId: true,
          kind: true,
          quantityMilli: true,
          bin: true,
          unitCostE4: true,
          at: true,
          jobId: true,
          stepId: true,
          part: { select: { unit: true } },
        },
      });
      if (!move) throw new Refusal("There is no such move.", "Open the part again.", {}, "missing");
      if (move.kind === "betweenBins")
        throw new Refusal(
          "That only moved between bins: the quantity is the same.",
          "Move it back to the bin it belongs in, or count the bin.",
          { moveId: "Choose another move." },
        );
      if (input.rightMilli !== 0) demandQuantity(input.rightMilli, move.part.unit);
      const right = Math.sign(move.quantityMilli) * input.rightMilli;
      const difference = right - move.quantityMilli;
      if (difference === 0)
        throw new Refusal("That is what the move says already.", "Enter what it should have been.", {
          right: "The same as now.",
        });
      const used = move.kind === "use";
      const { moveId } = await recordMoveIn(tx, shop, {
        partId: move.partId,
        kind: used ? (difference > 0 ? "returnToStock" : "use") : "count",
        quantityMilli: difference,
        ratherFrom: move.bin,
        unitCostE4: difference > 0 ? move.unitCostE4 : null,
        jobId: used ? (move.jobId ?? undefined) : undefined,
        stepId: used ? (move.stepId ?? undefined) : undefined,
        at: move.at,
        why: `puts move ${input.moveId} right: ${input.why}`,
      });
      return moveId;
    }),
  );
}

/** The instant that stands for a day on the shop's clock: noon; nothing where the day is today or none is given. */
export async function momentOn(shop: ShopHandle, day: string | undefined): Promise<Date | undefined> {
  if (!day) return undefined;
  const zone = await zoneIn(shop.read);
  return day === dayOf(shop.now.getTime(), zone) ? undefined : new Date(instantOf(day, "12:00", zone));
}
