import type { ShopHandle } from "@/lib/db/shop";

/** The job that a customer's link leads to: its own, or the one that its quote became; null where there is none. */
export async function jobOfLink(
  shop: Pick<ShopHandle, "read">,
  { jobId, revisionId }: { readonly jobId: number | null; readonly revisionId: number | null },
): Promise<number | null> {
  if (jobId !== null || revisionId === null) return jobId;
  const revision = await shop.read.quoteRevision.findUnique({
    where: { id: revisionId },
    select: {
      job: { select: { id: true } },
      acceptance: { select: { id: true } },
      quote: { select: { variationOfId: true } },
    },
  });
  if (!revision?.acceptance) return null;
  return revision.job?.id ?? revision.quote.variationOfId;
}

/** An issued document of the link's job by its id; null where it is another's, or the link has no job. */
export async function invoiceOfJob(
  shop: Pick<ShopHandle, "read">,
  link: { readonly jobId: number | null; readonly revisionId: number | null },
  invoiceId: number,
): Promise<number | null> {
  const jobId = await jobOfLink(shop, link);
  if (jobId === null) return null;
  const found = await shop.read.invoice.findFirst({
    where: { id: invoiceId, jobId, state: "issued" },
    select: { id: true },
  });
  return found?.id ?? null;
}
