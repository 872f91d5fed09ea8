import { once } from "@/lib/db/once";
import type { ShopHandle } from "@/lib/db/shop";
import { outstanding } from "@/lib/domain/invoices/state";
import { moneyText } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import { INVOICE_ROW } from "../invoices/rows";
import { payInvoiceIn } from "./record";

export interface SeveralPaid {
  readonly customerId: number;
  readonly invoices: readonly number[];
  readonly amountMinor: number;
  readonly method: "card" | "transfer";
  readonly paidOn: string;
  readonly reference?: string;
  /** What is more than is due on all of them stays the customer's balance, with the last one. */
  readonly keepRest?: boolean | undefined;
  readonly key?: string | undefined;
}

/** What a customer has to pay, the oldest first. */
export async function openInvoices(shop: ShopHandle, customerId: number) {
  const rows = await shop.read.invoice.findMany({
    where: { customerId, kind: "invoice", state: "issued", takenBack: false, job: { state: "invoiced" } },
    select: INVOICE_ROW,
    orderBy: { id: "asc" },
    take: 50,
  });
  return rows
    .map(({ id, written, issuedOn, dueOn, ...row }) => ({
      id,
      written,
      issuedOn,
      dueOn,
      leftMinor: outstanding({ ...row, dueOn, credited: false }),
    }))
    .filter((one) => one.leftMinor > 0);
}

/**
 * One payment over several invoices of a customer: the oldest is paid in full first, the last gets what is left. Answers the first
 * row's id. Refused where an invoice would get none of it, or more than is due on all is given and not to be kept.
 */
export async function recordForSeveral(shop: ShopHandle, input: SeveralPaid): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "recorded a payment of several invoices", input, async () => {
      const rows = await tx.invoice.findMany({
        where: {
          id: { in: [...input.invoices] },
          customerId: input.customerId,
          kind: "invoice",
          state: "issued",
        },
        select: INVOICE_ROW,
        orderBy: { id: "asc" },
      });
      if (rows.length !== new Set(input.invoices).size)
        throw new Refusal(
          "One of these is no invoice of this customer.",
          "Open the page again.",
          {},
          "conflict",
        );
      const { currency, locale } = await tx.settings.findUniqueOrThrow({
        where: { id: 1 },
        select: { currency: true, locale: true },
      });
      const owed = rows.map((row) => outstanding({ ...row, credited: row.takenBack }));
      const due = owed.reduce((sum, minor) => sum + minor, 0);
      if (input.amountMinor > due && !input.keepRest) {
        const most = moneyText(due, currency, locale);
        const remedy = `${most} ${currency} is due on what is ticked. Tick more, or keep the rest as the customer's balance.`;
        throw new Refusal("That is more than is due.", remedy, { amount: remedy });
      }
      const { paidOn, method, reference = "", keepRest } = input;
      let left = input.amountMinor;
      const ids: number[] = [];
      for (const [at, row] of rows.entries()) {
        if (left <= 0)
          throw new Refusal(
            `Nothing of it is left for invoice ${row.written}.`,
            "Take the tick off that one, or enter more.",
            { amount: "Too little for all that is ticked." },
          );
        const amountMinor = at === rows.length - 1 ? left : Math.min(left, owed[at] ?? 0);
        ids.push(
          await payInvoiceIn(tx, shop, {
            invoiceId: row.id,
            amountMinor,
            method,
            paidOn,
            reference,
            keepRest,
          }),
        );
        left -= amountMinor;
      }
      const [first] = ids;
      if (first === undefined) throw new Refusal("No invoice is ticked.", "Tick the invoices that it pays.");
      return first;
    }),
  );
}
