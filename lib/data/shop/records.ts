import type { ShopHandle } from "@/lib/db/shop";

const PAGE = 50;

/** The audit trail, newest first, a page at a time. */
export async function listAudit(shop: ShopHandle, before?: number) {
  const rows = await shop.read.auditEntry.findMany({
    ...(before ? { where: { id: { lt: before } } } : {}),
    orderBy: { id: "desc" },
    take: PAGE + 1,
  });
  return { rows: rows.slice(0, PAGE), next: rows.length > PAGE ? rows[PAGE - 1]?.id : undefined };
}
