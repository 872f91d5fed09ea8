import { acceptQuote } from "@/lib/data/acceptance/accept";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { issueInvoice } from "@/lib/data/invoices/issue";
import type { ShopHandle } from "@/lib/db/shop";
import { type Ready, readyToQuote, sentQuote, yes } from "./quotes";

/** What a shop must have entered before it can issue anything; invented numbers with right check digits. */
export async function nameShop(
  shop: ShopHandle,
  more: { pricesIncludeTax?: boolean; cashRoundingMinor?: number } = {},
): Promise<void> {
  await shop.write((tx) =>
    tx.settings.update({
      where: { id: 1 },
      data: {
        legalName: "Saltpan Carburettor Works",
        taxNumber: "51 824 753 556",
        address: "4 Gauge Street\nSaltpan",
        bankDetails: "Account 12-3456",
        ...more,
      },
    }),
  );
}

/** A customer's job accepted from a sent quote and carried to ready, as the floor leaves it. */
export async function readyJob(
  shop: ShopHandle,
  ready?: Ready,
): Promise<{ jobId: number; grossMinor: number; ready: Ready }> {
  const own = ready ?? (await readyToQuote(shop, 40));
  const sent = await sentQuote(shop, own);
  const { jobId } = await acceptQuote(shop, yes(sent));
  await shop.write(async (tx) => {
    await tx.customer.update({ where: { id: own.customerId }, data: { address: "9 Ridge Road\nSaltpan" } });
    await tx.job.update({
      where: { id: jobId },
      data: { state: "ready", finishedAt: shop.now, odometerKm: 41_200 },
    });
  });
  const { grossMinor } = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
  return { jobId, grossMinor, ready: own };
}

/** A job's invoice as quoted, issued. */
export async function issuedInvoice(shop: ShopHandle, jobId: number): Promise<number> {
  const id = await draftInvoice(shop, { jobId, basis: "fixed" });
  const { version } = await shop.read.invoice.findUniqueOrThrow({ where: { id } });
  return issueInvoice(shop, { id, version });
}

export const invoiceNow = (shop: ShopHandle, id: number) =>
  shop.read.invoice.findUniqueOrThrow({ where: { id } });
export const stateOf = async (shop: ShopHandle, jobId: number) =>
  (await shop.read.job.findUniqueOrThrow({ where: { id: jobId } })).state;
