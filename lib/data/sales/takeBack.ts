import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { handOver } from "@/lib/domain/invoices/handOver";
import { depositLeftOf } from "@/lib/domain/invoices/held";
import { dayIn } from "@/lib/domain/schedule/days";
import type { TakeBackInput } from "@/lib/schemas/sales";
import { creditIn } from "../invoices/credit";
import { writeMoneyIn } from "../payments/rows";
import { recordMoveIn } from "../stock/moves";
import { saleIn } from "./rows";
import { settlementOf } from "./sell";

/**
 * Takes a whole sale back: a credit note, the parts into the bins they came from (or scrapped), and the money out, in one
 * transaction. Answers the sale's id.
 */
export async function takeBack(
  shop: ShopHandle,
  input: TakeBackInput & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "took a sale back", input, async () => {
      const sale = await saleIn(tx, input.saleId);
      const terms = await tx.settings.findUniqueOrThrow({
        where: { id: 1 },
        select: { currency: true, locale: true, zone: true, cashRoundingMinor: true },
      });
      const held = depositLeftOf(sale.payments);
      const paid = held === 0 ? null : handOver(held, input.method, null, terms.cashRoundingMinor, terms);
      await creditIn(
        tx,
        shop,
        { id: sale.live.id, reason: input.reason, earlier: input.earlier },
        paid ? [settlementOf(paid)] : [],
      );
      if (paid)
        await writeMoneyIn(tx, shop, {
          kind: "refund",
          saleId: sale.id,
          invoiceId: null,
          method: paid.method,
          amountMinor: paid.amountMinor,
          roundingMinor: paid.roundingMinor,
          paidOn: dayIn(terms.zone, shop.now),
          reference: input.reason.slice(0, 120),
        });
      const scrapped = await partsBackIn(tx, shop, sale.id, new Set(input.back));
      await audit(tx, shop, "took back", "sale", sale.id, { reason: input.reason, scrapped });
      return sale.id;
    }),
  );
}

/** Each move of the sale the other way, at what it cost; what is not fit to be sold goes out again as scrap. Answers those codes. */
async function partsBackIn(
  tx: ShopTx,
  shop: ShopHandle,
  saleId: number,
  fit: ReadonlySet<number>,
): Promise<string[]> {
  const moves = await tx.move.findMany({
    where: { saleId, kind: "use" },
    select: {
      partId: true,
      quantityMilli: true,
      bin: true,
      unitCostE4: true,
      part: { select: { code: true } },
    },
    orderBy: { id: "asc" },
  });
  const scrapped = new Set<string>();
  for (const { partId, quantityMilli, bin, unitCostE4, part } of moves) {
    const back = { partId, quantityMilli: 0 - quantityMilli, bin, saleId };
    const sound = fit.has(partId);
    await recordMoveIn(tx, shop, {
      ...back,
      kind: "returnToStock",
      unitCostE4,
      passesThrough: !sound,
      why: "taken back over the counter",
    });
    if (sound) continue;
    scrapped.add(part.code);
    await recordMoveIn(tx, shop, { ...back, kind: "scrap", why: "taken back over the counter, not fit" });
  }
  return [...scrapped];
}
