import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit, nextWritten, type TakenNumber } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { creditableLines } from "@/lib/domain/invoices/creditable";
import { askForRest, creditOfPart, type PartCredit } from "@/lib/domain/invoices/creditLines";
import type { PrintedSettlement } from "@/lib/domain/invoices/printed";
import { sharesOf } from "@/lib/domain/invoices/shares";
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
import { type InvoiceRow, invoiceIn, MOST_CREDITS } from "./rows";
import { writtenOffIn } from "./writtenOff";

const FIRST_CREDIT = 301;

/** Takes what is left of an issued invoice back with a credit note of its own number; its jobs can then be invoiced again. Answers its id. */
export async function creditInvoice(
  shop: ShopHandle,
  input: CreditInvoice & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "credited an invoice", input, async () => {
      demandOfJobs(await invoiceIn(tx, input.id));
      return creditIn(tx, shop, input);
    }),
  );
}

/** Refuses what was sold over the counter: money and parts go back with it there. */
export function demandOfJobs({ saleId }: InvoiceRow): void {
  if (saleId !== null)
    throw new Refusal(
      "This was sold over the counter: its parts and its money come back with it.",
      "Take it back on the sale's own page.",
      {},
      "conflict",
    );
}

/** As creditInvoice, in a transaction of the caller's. `settlements` is the money that goes back at once. */
export async function creditIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: CreditInvoice,
  settlements: readonly PrintedSettlement[] = [],
): Promise<number> {
  const open = await creditableIn(tx, input.id);
  const rest =
    open.credits.length === 0
      ? null
      : creditOfPart(open.doc, open.credits, askForRest(creditableLines(open.doc, open.credits)));
  return writeCreditIn(tx, shop, open, { ...input, settlements }, rest);
}

/** An issued invoice of which something is left to be credited, with the credit notes it has so far. */
export interface OpenInvoice {
  readonly row: InvoiceRow;
  readonly doc: FrozenInvoice;
  readonly credits: readonly FrozenInvoice[];
}

/** The same out of the database; refused where it is no such invoice. */
export async function creditableIn(tx: ShopTx, id: number): Promise<OpenInvoice> {
  const row = await invoiceIn(tx, id);
  if (row.kind === "creditNote" || row.state !== "issued")
    throw new Refusal("Only an issued invoice can be credited.", "Discard a draft instead.", {}, "conflict");
  const before = row.creditedBy.map((credit) => credit.written).join(", ");
  if (row.takenBack)
    throw new Refusal(
      `${KIND_NAMES[row.kind]} ${row.written} is already credited with ${before}.`,
      "Nothing more is to be done.",
      {},
      "conflict",
    );
  if (row.creditedBy.length >= MOST_CREDITS)
    throw new Refusal(
      `${KIND_NAMES[row.kind]} ${row.written} has ${MOST_CREDITS} credit notes: it takes no more.`,
      "Give the money back, or agree it on the next invoice.",
      {},
      "conflict",
    );
  await demandNothingOff(tx, row);
  const { frozen } = await tx.invoice.findUniqueOrThrow({ where: { id }, select: { frozen: true } });
  return { row, doc: storedInvoice(frozen), credits: await creditsOf(tx, id) };
}

/** Refuses an invoice of which something was written off: a credit would take that off a second time. */
async function demandNothingOff(tx: ShopTx, { id, kind, written }: InvoiceRow): Promise<void> {
  if ((await writtenOffIn(tx, id)) === 0) return;
  throw new Refusal(
    `Some of ${KIND_NAMES[kind].toLowerCase()} ${written} is written off.`,
    "Take the write-off back first, then credit it.",
    {},
    "conflict",
  );
}

/** The credit notes of an invoice as they were issued, in their order. */
export async function creditsOf(db: Pick<ShopTx, "invoice">, id: number): Promise<FrozenInvoice[]> {
  const rows = await db.invoice.findMany({
    where: { creditsId: id },
    select: { frozen: true },
    orderBy: { id: "asc" },
    take: MOST_CREDITS,
  });
  return rows.map((row) => storedInvoice(row.frozen));
}

/** Why, and what goes with it. */
interface Said {
  readonly reason: string;
  readonly earlier?: "on" | undefined;
  readonly settlements: readonly PrintedSettlement[];
}

/** Issues the credit note of a part, or of the whole where no part is given. Answers its id. */
export async function writeCreditIn(
  tx: ShopTx,
  shop: ShopHandle,
  { row, doc, credits }: OpenInvoice,
  said: Said,
  part: PartCredit | null,
): Promise<number> {
  const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const day = dayIn(zone, shop.now);
  const order = await demandLater(tx, day, said.earlier === "on");
  const taken = await nextWritten(tx, shop, "creditNote", FIRST_CREDIT);
  const frozen = frozenOf(noteOf(doc, { taken, day, ...said }, part ?? mirrored(doc)));
  const { id } = await tx.invoice.create({
    data: {
      kind: "creditNote",
      jobId: row.jobId,
      saleId: row.saleId,
      customerId: row.customerId,
      creditsId: row.id,
      basis: row.basis,
      reason: said.reason,
      searchKey: findBy(frozen),
      createdAt: shop.now,
      ...issued(frozen),
      shares: { create: sharesOf(frozen) },
      ...figuresOf(frozen),
    },
    select: { id: true },
  });
  const further = await furtherOn(tx, row.id);
  if (further.length > 0)
    await tx.invoiceJob.createMany({ data: further.map((one) => ({ ...one, invoiceId: id })) });
  const takenBack =
    part === null || creditableLines(doc, [...credits, frozen]).every((line) => line.leftMinor === 0);
  // Its own money stays on the job: it is taken off the next invoice, or paid back.
  await demandOne(
    tx.invoice.updateMany({
      where: { id: row.id, version: row.version },
      data: { paidMinor: { decrement: frozen.grossMinor }, takenBack, version: { increment: 1 } },
    }),
    () =>
      new Refusal("This invoice has just been changed by someone else.", "Look at it again.", {}, "conflict"),
  );
  await audit(tx, shop, "credited", "invoice", row.id, {
    number: row.written,
    creditNote: taken.written,
    reason: said.reason,
    ...(part ? { grossMinor: frozen.grossMinor } : {}),
    ...order,
  });
  return id;
}

type Credited = Pick<FrozenInvoice, "lines" | "taxes" | "netMinor" | "taxMinor" | "grossMinor"> & {
  readonly takes?: FrozenInvoice["takes"];
};

/** All of an invoice: each amount with the other sign, to the cent. */
function mirrored(invoice: FrozenInvoice): Credited {
  const lines = creditOf(invoice.lines.map(costless)).map(({ costMinor: _, ...line }) => line);
  const totals = invoiceTotals({ ...invoice, lines: lines.map(costless) });
  if (totals.grossMinor !== 0 - invoice.grossMinor || totals.taxMinor !== 0 - invoice.taxMinor)
    throw new Error(`Credit of invoice ${invoice.number} does not mirror it.`);
  const { taxes, netMinor, taxMinor, grossMinor } = totals;
  return { lines, taxes, netMinor, taxMinor, grossMinor };
}

/** The credit note of an invoice. */
function noteOf(
  { payTo: _, ...invoice }: FrozenInvoice,
  as: { taken: TakenNumber; day: string; reason: string; settlements: readonly PrintedSettlement[] },
  { lines, takes, taxes, netMinor, taxMinor, grossMinor }: Credited,
): FrozenInvoice {
  if (invoice.number === null || invoice.kind === "creditNote")
    throw new Error("A draft cannot be credited.");
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
    ...(takes ? { takes } : {}),
    taxes,
    netMinor,
    taxMinor,
    grossMinor,
    prepaidMinor: 0,
    dueMinor: grossMinor,
    deposits: [],
  };
}
