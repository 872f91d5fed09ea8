import type { ShopHandle } from "@/lib/db/shop";
import { amount, type PaperMoney, STANDARD, sumsHold } from "./money";
import type { InvoiceText } from "./readInvoice";
import { localDay } from "./readSheets";
import { Differences, total } from "./sums";

interface ReceiptText extends PaperMoney, Pick<InvoiceText, "kind" | "number" | "issuedOn" | "dueMinor"> {
  readonly settlement: { readonly paidMinor: number; readonly roundingMinor: number } | null;
}

/** Whether a sale's receipt, its parts and its money say the same; `prices` of one by code, as they were agreed at the counter. */
export async function readSale(
  shop: ShopHandle,
  saleId: number,
  prices: Readonly<Record<string, bigint>>,
): Promise<string[]> {
  const sale = await shop.read.sale.findUniqueOrThrow({
    where: { id: saleId },
    include: { invoices: { orderBy: { id: "asc" } }, payments: { orderBy: { id: "asc" } } },
  });
  const settings = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  const moves = await shop.read.move.findMany({
    where: { saleId },
    include: { part: true },
    orderBy: { id: "asc" },
  });
  const [receipt, credit] = sale.invoices;
  const text = receipt?.frozen as unknown as ReceiptText;
  const diff = new Differences(`Receipt ${text.number}`);
  const sold = moves.filter((move) => move.kind === "use");
  diff.same("the day", text.issuedOn, localDay(receipt?.createdAt ?? null, settings.zone));
  const rate = STANDARD[settings.country] ?? 0n;
  diff.same(
    "its lines",
    text.lines.map((line) => [
      line.key,
      line.quantityMilli,
      line.shownMinor,
      line.taxCategory,
      line.taxRateBp,
    ]),
    sold.map(({ part, quantityMilli }) => {
      const zero = part.taxCategory === "Z";
      const shown = amount(prices[part.code] ?? 0n, BigInt(-quantityMilli));
      return [part.code, -quantityMilli, shown, zero ? "Z" : "S", zero ? 0n : rate];
    }),
  );
  sumsHold(diff, text);
  const money = (kind: string) =>
    total(
      sale.payments
        .filter((one) => one.kind === kind)
        .map((one) => BigInt(one.amountMinor - one.roundingMinor)),
    );
  const came = money("payment") + money("deposit");
  diff.same("what was paid", came, text.grossMinor);
  if (!credit) return diff.found;
  const back = credit.frozen as unknown as ReceiptText;
  diff.same("what its credit note takes back", back.grossMinor, -text.grossMinor);
  diff.same("what went back", money("refund"), text.grossMinor);
  diff.same("parts that came back", total(moves.map((move) => BigInt(move.quantityMilli))), 0n);
  return diff.found;
}
