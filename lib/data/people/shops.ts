import { directory } from "@/lib/db/directory";

/** The open shops a person belongs to, in the order they joined. */
export async function shopsOf(personId: string) {
  const rows = await directory().read.membership.findMany({
    where: { personId, shop: { closedAt: null } },
    select: { role: true, shop: { select: { slug: true, name: true } } },
    orderBy: { id: "asc" },
  });
  return rows.map((row) => ({ slug: row.shop.slug, name: row.shop.name, role: row.role }));
}
