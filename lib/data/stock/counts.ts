import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { binText } from "@/lib/domain/stock/bins";
import { splitMoves } from "@/lib/domain/stock/split";
import { quantityText } from "@/lib/schemas/quantity";
import { inBinIn } from "./lying";
import { recordMoveIn } from "./moves";
import { demandQuantity, demandRow } from "./quantity";
import { reserveMore } from "./shortages";

export interface CountInput {
  partId: number;
  /** The bin that was counted; its usual one unless another is named. */
  bin?: string | undefined;
  countedMilli: number;
  /** What lay in that bin by the ledger when the variance was shown. */
  seenMilli: number;
  why?: string | undefined;
  key?: string | undefined;
}

/**
 * Takes the count of one bin into the ledger: one move of the variance, none where the bin agrees. What is in the bins is
 * what there is: where it is less than was reserved, the newest reservations become short. Returns the variance.
 */
export async function countPart(shop: ShopHandle, input: CountInput): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "counted a part", input, async () => {
      const part = await tx.part.findUnique({
        where: { id: input.partId },
        select: { id: true, code: true, unit: true, bin: true, onHandMilli: true, reservedMilli: true },
      });
      if (!part) throw new Refusal("There is no such part.", "Choose a part from stock.", {}, "missing");
      if (input.countedMilli !== 0) demandQuantity(input.countedMilli, part.unit);
      const bin = input.bin ?? part.bin;
      const thereMilli = await inBinIn(tx, part.id, bin);
      if (thereMilli !== input.seenMilli)
        throw new Refusal(
          `${part.code} moved while you counted: ${quantityText(thereMilli, part.unit)} lies in ${binText(bin)} now.`,
          "Count it once more.",
          {},
          "conflict",
        );
      const variance = input.countedMilli - thereMilli;
      const line = { partId: part.id, countedMilli: input.countedMilli, seenMilli: thereMilli };
      if (variance === 0) {
        await sheetOfOneIn(tx, shop, bin, { ...line, moveId: null });
        await audit(tx, shop, "counted", "part", part.id, { bin, countedMilli: input.countedMilli });
        return 0;
      }
      await takeBack(tx, shop, part, part.reservedMilli - (part.onHandMilli + variance));
      const { moveId } = await recordMoveIn(tx, shop, {
        partId: part.id,
        kind: "count",
        quantityMilli: variance,
        bin,
        why: input.why,
      });
      await sheetOfOneIn(tx, shop, bin, { ...line, moveId });
      return variance;
    }),
  );
}

/** A count of one part is a count too: the figures know how often the ledger was right. */
async function sheetOfOneIn(
  tx: ShopTx,
  shop: ShopHandle,
  bin: string,
  line: { partId: number; countedMilli: number; seenMilli: number; moveId: number | null },
): Promise<void> {
  const who = { countedBy: shop.by.name, approvedBy: shop.by.name };
  const when = { startedAt: shop.now, countedAt: shop.now, approvedAt: shop.now };
  await tx.countSheet.create({
    data: { bin, state: "approved", ...who, ...when, lines: { create: line } },
    select: { id: true },
  });
}

/** Makes the newest reservations short by what is not there. */
export async function takeBack(
  tx: ShopTx,
  shop: ShopHandle,
  part: { id: number; onHandMilli: number; reservedMilli: number },
  missingMilli: number,
): Promise<void> {
  if (missingMilli <= 0) return;
  const rows = await tx.reservation.findMany({
    where: { partId: part.id, state: "held", reservedMilli: { gt: 0 } },
    select: { id: true, reservedMilli: true, job: { select: { number: true } } },
    orderBy: [{ jobId: "desc" }, { id: "desc" }],
  });
  let left = missingMilli;
  for (const row of rows) {
    const back = Math.min(left, row.reservedMilli);
    if (back === 0) break;
    left -= back;
    await tx.reservation.update({
      where: { id: row.id },
      data: { reservedMilli: { decrement: back }, version: { increment: 1 } },
      select: { id: true },
    });
    await audit(tx, shop, "made short by a count", "part", part.id, {
      job: row.job.number,
      reservedMilli: -back,
    });
  }
  await reserveMore(tx, part, -(missingMilli - left));
}

export interface SplitInput {
  /** The assortment that is opened. */
  partId: number;
  quantityMilli: number;
  into: readonly { partId: number; quantityMilli: number }[];
  key?: string | undefined;
}

/** Opens an assortment into its parts: it goes out, they come in, its cost spread evenly over the pieces. */
export async function splitPart(shop: ShopHandle, input: SplitInput): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "opened an assortment", input, async () => {
      if (input.into.length === 0) throw new Refusal("Nothing comes out of it.", "Enter what was in it.");
      if (input.into.some((row) => row.partId === input.partId))
        throw new Refusal("An assortment cannot be split into itself.", "Choose the parts that were in it.");
      const from = await tx.part.findUnique({
        where: { id: input.partId },
        select: { code: true, averageE4: true, costE4: true },
      });
      if (!from) throw new Refusal("There is no such part.", "Choose a part from stock.", {}, "missing");
      const pieces = await tx.part.findMany({
        where: { id: { in: input.into.map((row) => row.partId) } },
        select: { id: true, code: true, unit: true },
        orderBy: { id: "asc" },
      });
      for (const row of input.into) {
        const piece = pieces.find((each) => each.id === row.partId);
        if (piece) demandRow(row.quantityMilli, piece, `into.${row.partId}`);
      }
      const unitCostE4 = from.averageE4 ?? from.costE4;
      const { out, into } = splitMoves(
        { quantityMilli: input.quantityMilli, unitCostE4: unitCostE4 ?? 0 },
        input.into.map((row) => ({ code: String(row.partId), quantityMilli: row.quantityMilli, weight: 1 })),
      );
      const { moveId } = await recordMoveIn(tx, shop, {
        partId: input.partId,
        kind: "split",
        quantityMilli: out.quantityMilli,
        why: "opened",
      });
      for (const { code, move } of into)
        await recordMoveIn(tx, shop, {
          partId: Number(code),
          kind: "split",
          quantityMilli: move.quantityMilli,
          unitCostE4: unitCostE4 === null ? null : move.unitCostE4,
          why: `out of ${from.code}`,
        });
      return moveId;
    }),
  );
}
