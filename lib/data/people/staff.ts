import { directory } from "@/lib/db/directory";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { may, type Role } from "@/lib/domain/access/permissions";

/** Ends the running time of somebody who may work in the shop no longer. */
export type EndWorkIn = (tx: ShopTx, shop: ShopHandle, staffId: number) => Promise<void>;

/** A shop's row of a person that does not say what the directory says of them. */
interface Stale {
  readonly id: number;
  readonly name: string;
  /** Null: belongs to the shop no more. */
  readonly role: string | null;
}

/**
 * Rows that a stop between the directory's write and the shop's left as they were: of people who were taken out, or given another
 * role. Who may do what follows the directory in any case; these rows say who is offered for work.
 */
async function staleStaff(shop: ShopHandle): Promise<Stale[]> {
  const found = await directory().read.shop.findUnique({
    where: { slug: shop.slug },
    select: { memberships: { select: { personId: true, role: true }, orderBy: { id: "asc" }, take: 2000 } },
  });
  if (!found) return [];
  const roles = new Map(found.memberships.map((one) => [one.personId, one.role as string]));
  const rows = await shop.read.staff.findMany({
    where: { active: true },
    select: { id: true, personId: true, name: true, role: true },
    orderBy: { id: "asc" },
    take: 2000,
  });
  return rows.flatMap(({ id, personId, name, role }) => {
    const now = roles.get(personId) ?? null;
    return now === role ? [] : [{ id, name, role: now }];
  });
}

export async function hasStaleStaff(shop: ShopHandle): Promise<boolean> {
  return (await staleStaff(shop)).length > 0;
}

/** Brings the shop's rows of its people in line with the directory. Answers how many were not. */
export async function settleStaff(shop: ShopHandle, endWork: EndWorkIn): Promise<number> {
  const stale = await staleStaff(shop);
  for (const { id, name, role } of stale)
    await shop.write(async (tx) => {
      await tx.staff.update({
        where: { id },
        data: { ...(role === null ? { active: false } : { role }), version: { increment: 1 } },
        select: { id: true },
      });
      if (role === null || !may(role as Role, "job.work")) await endWork(tx, shop, id);
      await audit(tx, shop, role === null ? "removed" : "changed a role", "person", id, { name, role });
    });
  return stale.length;
}
