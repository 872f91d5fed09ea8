import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type CreditAsk, creditOfPart } from "@/lib/domain/invoices/creditLines";
import { keptLines } from "@/lib/domain/invoices/kept";
import { jobOfKey } from "@/lib/domain/invoices/severalJobs";
import { Refusal } from "@/lib/domain/refusal";
import type { FATES } from "@/lib/schemas/typedCredit";
import type { KeptLines } from "../documents/kept";
import { creditableIn, creditIn, demandOfJobs, type OpenInvoice, writeCreditIn } from "./credit";
import { chargedParts, partsBackIn } from "./creditedParts";
import { createDraftIn } from "./draft";
import { invoiceFacts } from "./facts";
import { furtherOn } from "./jobsOn";
import { jobIdOf } from "./rows";
import { countPaidIn } from "./settle";

export interface CreditPart {
  readonly id: number;
  /** The invoice as it was seen: what is left of it must not have changed. */
  readonly version: number;
  readonly reason: string;
  readonly ask: CreditAsk;
  /** What becomes of the parts of credited lines, by the lines' keys; one that is not named stays with the customer. */
  readonly fates: Readonly<Record<string, (typeof FATES)[number]>>;
  /** Takes all of the invoice back, and begins a new draft with what stays of it. */
  readonly corrected: boolean;
  readonly earlier?: "on" | undefined;
  readonly key?: string | undefined;
}

/** Credits a part of an issued invoice, or corrects it. Answers the credit note's id, or that of the new draft. */
export async function creditPart(shop: ShopHandle, input: CreditPart): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "credited a part of an invoice", input, async () => {
      const open = await creditableIn(tx, input.id);
      const { row, doc } = open;
      demandOfJobs(row);
      if (row.version !== input.version)
        throw new Refusal(
          "This invoice was changed by someone else since you opened it.",
          "Look at what is left of it now, then credit it.",
          {},
          "conflict",
        );
      const part = creditOfPart(doc, open.credits, input.ask);
      const parts = await chargedParts(tx, row, doc);
      const kept = input.corrected ? keptOf(open, input.ask) : null;
      const creditId = kept
        ? await creditIn(tx, shop, input)
        : await writeCreditIn(tx, shop, open, { ...input, settlements: [] }, part);
      const { written } = await tx.invoice.findUniqueOrThrow({
        where: { id: creditId },
        select: { written: true },
      });
      const back = part.takes
        .filter((take) => take.quantityMilli > 0)
        .map((take) => ({ ...take, fate: input.fates[take.key] ?? "stays" }));
      await partsBackIn(tx, shop, parts, back, written);
      await countPaidIn(tx, shop, row.id);
      return kept ? draftKeptIn(tx, shop, open, kept) : creditId;
    }),
  );
}

/** The lines that the corrected invoice begins with. */
function keptOf({ doc, credits }: OpenInvoice, ask: CreditAsk): KeptLines {
  const lines = keptLines(doc, credits, ask).map(({ costMinor: _, ...line }) => line);
  if (lines.length === 0)
    throw new Refusal(
      "Nothing would be left for a corrected invoice.",
      "Credit it without one; its jobs can then be invoiced again.",
    );
  const { currency, pricesIncludeTax, taxRegime, quotes } = doc;
  const jobs = doc.jobs.map(({ number }, at) => ({
    number,
    lines: lines.flatMap(({ job: _, ...line }) => {
      const own = jobOfKey(line.key);
      return (own.job ?? doc.jobs[0]?.number) === number || (at === 0 && own.job === null)
        ? [{ ...line, key: own.key }]
        : [];
    }),
  }));
  return {
    format: "throttlewright-kept-lines",
    version: 1,
    corrects: doc.written,
    currency,
    pricesIncludeTax,
    taxRegime,
    quotes,
    jobs,
  };
}

/** A draft for the same jobs with what stayed of their invoice. */
async function draftKeptIn(
  tx: ShopTx,
  shop: ShopHandle,
  { row, doc }: OpenInvoice,
  kept: KeptLines,
): Promise<number> {
  const jobs = [{ jobId: jobIdOf(row), basis: row.basis }, ...(await furtherOn(tx, row.id))];
  const charged = [];
  for (const { jobId, basis } of jobs)
    charged.push({
      facts: await invoiceFacts(tx, jobId),
      basis: basis === "asWorked" ? basis : "fixed",
    } as const);
  const [first, ...further] = charged;
  if (!first) throw new Error("An invoice of no job.");
  const id = await createDraftIn(tx, shop, [first, ...further], kept);
  // It is the same order that the corrected invoice is for.
  const number = doc.einvoice?.orderNumber;
  if (number) await tx.einvoiceOrder.create({ data: { invoiceId: id, number } });
  await audit(tx, shop, "corrected", "invoice", row.id, { number: row.written, draft: id });
  return id;
}
