import type { ShopHandle } from "@/lib/db/shop";
import { creditableLines } from "@/lib/domain/invoices/creditable";
import { dayIn } from "@/lib/domain/schedule/days";
import { storedInvoice } from "../documents/invoice";
import { creditsOf } from "./credit";
import { chargedParts } from "./creditedParts";
import { laterThan } from "./order";
import { INVOICE_ROW } from "./rows";

/** An issued invoice with what is left of it to be credited, line by line; null where there is none, or nothing is left. */
export async function getCreditable(shop: ShopHandle, id: number) {
  const row = await shop.read.invoice.findUnique({
    where: { id },
    select: { ...INVOICE_ROW, frozen: true, job: { select: { id: true, state: true } } },
  });
  if (row?.state !== "issued" || row.kind !== "invoice" || row.saleId !== null || row.takenBack) return null;
  const { frozen, job, creditedBy, ...rest } = row;
  const doc = storedInvoice(frozen);
  const credits = await creditsOf(shop.read, id);
  const parts = await chargedParts(shop.read, row, doc);
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const today = dayIn(zone, shop.now);
  return {
    ...rest,
    doc,
    credits,
    creditedBy,
    lines: creditableLines(doc, credits)
      .filter((one) => one.leftMinor !== 0)
      .map((one) => ({ ...one, part: parts.get(one.line.key) ?? null })),
    /** Time of a closed job cannot be corrected. */
    timeOpen: job !== null && job.state !== "closed",
    today,
    later: await laterThan(shop.read, today),
  };
}
