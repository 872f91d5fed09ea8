import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { newToken } from "@/lib/db/token";

export interface MadeLink {
  /** Below the product's own address; shown once, since only the token's hash is kept. */
  readonly path: string;
  readonly expiresAt: Date;
}

/** How long a customer's link opens, in days (judgement): an invoice's for as long as it is argued about. */
const DAYS = { invoice: 180, job: 60 } as const;

/** A customer's link to a job or a document, made within a write that is under way. */
export async function linkIn(
  tx: ShopTx,
  shop: ShopHandle,
  purpose: "invoice" | "job",
  to: { invoiceId: number } | { jobId: number },
): Promise<MadeLink> {
  const token = newToken();
  const expiresAt = new Date(shop.now.getTime() + DAYS[purpose] * 86_400_000);
  const { id } = await tx.customerLink.create({
    data: { purpose, tokenHash: token.hash, createdAt: shop.now, expiresAt, ...to },
    select: { id: true },
  });
  await audit(tx, shop, "made", "customerLink", id, { purpose, ...to });
  return { path: `/c/${shop.slug}/${token.text}`, expiresAt };
}
