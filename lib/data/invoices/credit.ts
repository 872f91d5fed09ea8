import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit, nextWritten, type TakenNumber } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { PrintedSettlement } from "@/lib/domain/invoices/printed";
import { invoiceTotals } from "@/lib/domain/pricing/document";
import { creditOf } from "@/lib/domain/pricing/invoice";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { type CreditInvoice, KIND_NAMES } from "@/lib/schemas/invoices";
import { type FrozenInvoice, frozenOf, storedInvoice } from "../documents/invoice";
import { costless } from "./basis";
import { figuresOf } from "./draft";
import { findBy, issued } from "./issue";
import { furtherOn } from "./jobsOn";
import { demandLater } from "./order";
import { invoiceIn } from "./rows";

const FIRST_CREDIT = 301;

/** Takes an issued invoice back in full with a credit note of its own number; its jobs can then be invoiced again. Answers its id. */
export async function creditInvoice(
  shop: ShopHandle,
  input: CreditInvoice & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "credited an invoice", input, async () => {
      const { saleId } = await invoiceIn(tx, input.id);
      if (saleId !== null)
        throw new Refusal(
          "This was sold over the counter: its parts and its money come back with it.",
          "Take it back on the sale's own page.",
          {},
          "conflict",
        );
      return creditIn(tx, shop, input);
    }),
  );
}

/** As creditInvoice, in a transaction of the caller's. `settlements` is the money that goes back at once. */
export async function creditIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: CreditInvoice,
  settlements: readonly PrintedSettlement[] = [],
): Promise<number> {
  const row = await invoiceIn(tx, input.id);
  if (row.kind === "creditNote" || row.state !== "issued")
    throw new Refusal("Only an issued invoice can be credited.", "Discard a draft instead.", {}, "conflict");
  const before = row.creditedBy[0];
  if (before)
    throw new Refusal(
      `${KIND_NAMES[row.kind]} ${row.written} is already credited with ${before.written}.`,
      "Nothing more is to be done.",
      {},
      "conflict",
    );
  const { frozen: json } = await tx.invoice.findUniqueOrThrow({
    where: { id: row.id },
    select: { frozen: true },
  });
  const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const day = dayIn(zone, shop.now);
  const order = await demandLater(tx, day, input.earlier === "on");
  const taken = await nextWritten(tx, shop, "creditNote", FIRST_CREDIT);
  const frozen = frozenOf(mirrored(storedInvoice(json), { taken, day, reason: input.reason, settlements }));
  const { id } = await tx.invoice.create({
    data: {
      kind: "creditNote",
      jobId: row.jobId,
      saleId: row.saleId,
      customerId: row.customerId,
      creditsId: row.id,
      basis: row.basis,
      reason: input.reason,
      searchKey: findBy(frozen),
      createdAt: shop.now,
      ...issued(frozen),
      ...figuresOf(frozen),
    },
    select: { id: true },
  });
  const further = await furtherOn(tx, row.id);
  if (further.length > 0)
    await tx.invoiceJob.createMany({ data: further.map((one) => ({ ...one, invoiceId: id })) });
  // Its own money stays on the job: it is taken off the next invoice, or paid back.
  await demandOne(
    tx.invoice.updateMany({
      where: { id: row.id, version: row.version },
      data: { paidMinor: { increment: row.grossMinor }, version: { increment: 1 } },
    }),
    () =>
      new Refusal("This invoice has just been changed by someone else.", "Look at it again.", {}, "conflict"),
  );
  await audit(tx, shop, "credited", "invoice", row.id, {
    number: row.written,
    creditNote: taken.written,
    reason: input.reason,
    ...order,
  });
  return id;
}

/** The credit note of an invoice: each amount with the other sign, to the cent. */
function mirrored(
  invoice: FrozenInvoice,
  as: { taken: TakenNumber; day: string; reason: string; settlements: readonly PrintedSettlement[] },
): FrozenInvoice {
  if (invoice.number === null || invoice.kind === "creditNote")
    throw new Error("A draft cannot be credited.");
  const lines = creditOf(invoice.lines.map(costless)).map(({ costMinor: _, ...line }) => line);
  const totals = invoiceTotals({ ...invoice, lines: lines.map(costless) });
  if (totals.grossMinor !== 0 - invoice.grossMinor || totals.taxMinor !== 0 - invoice.taxMinor)
    throw new Error(`Credit of invoice ${invoice.number} does not mirror it.`);
  return {
    ...invoice,
    kind: "creditNote",
    ...as.taken,
    issuedOn: as.day,
    dueOn: as.day,
    credits: {
      kind: invoice.kind,
      number: invoice.number,
      written: invoice.written,
      issuedOn: invoice.issuedOn,
      reason: as.reason,
    },
    settlements: as.settlements,
    lines,
    taxes: totals.taxes,
    netMinor: totals.netMinor,
    taxMinor: totals.taxMinor,
    grossMinor: totals.grossMinor,
    prepaidMinor: 0,
    dueMinor: totals.dueMinor,
    deposits: [],
  };
}
