import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { changedCount } from "./binCounts";
import { takeBack } from "./counts";
import { inBinIn } from "./lying";
import { recordMoveIn } from "./moves";

/**
 * Takes the variances into the ledger, each as a move of the kind count in the bin that was counted: what was counted less
 * what the ledger said then lay there, so that moves since then stay as they are. Owner and desk approve. Returns how many moves were written.
 */
export async function approveCount(
  shop: ShopHandle,
  input: {
    sheetId: number;
    version: number;
    leaveOut: readonly number[];
    why?: string | undefined;
    key?: string | undefined;
  },
): Promise<number> {
  if (!["owner", "desk", "system"].includes(shop.by.role))
    throw new Refusal(
      "A count is approved by the owner or the desk.",
      "Ask one of them: what you counted is kept.",
      {},
      "forbidden",
    );
  return shop.write((tx) =>
    once(tx, shop, "approved a count", input, async () => {
      const sheet = await tx.countSheet.findUnique({
        where: { id: input.sheetId },
        select: {
          bin: true,
          lines: {
            select: { id: true, partId: true, countedMilli: true, seenMilli: true },
            orderBy: { id: "asc" },
          },
        },
      });
      if (!sheet) throw new Refusal("There is no such count.", "Choose one from the list.", {}, "missing");
      let moves = 0;
      for (const line of sheet.lines) {
        if (line.countedMilli === null || line.seenMilli === null) continue;
        if (input.leaveOut.includes(line.partId)) {
          await tx.countLine.update({
            where: { id: line.id },
            data: { leftOut: true },
            select: { id: true },
          });
          continue;
        }
        const variance = line.countedMilli - line.seenMilli;
        if (variance === 0) continue;
        const moveId = await varianceIn(
          tx,
          shop,
          line.partId,
          sheet.bin,
          variance,
          [`bin ${sheet.bin}`, input.why].filter(Boolean).join(", "),
        );
        await tx.countLine.update({ where: { id: line.id }, data: { moveId }, select: { id: true } });
        moves++;
      }
      await demandOne(
        tx.countSheet.updateMany({
          where: { id: input.sheetId, state: "counted", version: input.version },
          data: {
            state: "approved",
            approvedAt: shop.now,
            approvedBy: shop.by.name,
            version: { increment: 1 },
          },
        }),
        () => changedCount(),
      );
      await audit(tx, shop, "approved", "count", input.sheetId, { bin: sheet.bin, moves });
      return moves;
    }),
  );
}

async function varianceIn(
  tx: ShopTx,
  shop: ShopHandle,
  partId: number,
  bin: string,
  variance: number,
  why: string,
): Promise<number> {
  const part = await tx.part.findUniqueOrThrow({
    where: { id: partId },
    select: { id: true, code: true, onHandMilli: true, reservedMilli: true },
  });
  if ((await inBinIn(tx, partId, bin)) + variance < 0)
    throw new Refusal(
      `${part.code} has moved since it was counted: its variance would leave less than nothing.`,
      "Leave this part out, and count it once more on its own page.",
      {},
      "conflict",
    );
  await takeBack(tx, shop, part, part.reservedMilli - (part.onHandMilli + variance));
  const { moveId } = await recordMoveIn(tx, shop, {
    partId,
    kind: "count",
    quantityMilli: variance,
    bin,
    why,
  });
  return moveId;
}
