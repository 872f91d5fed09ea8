import { directory } from "@/lib/db/directory";
import type { Prisma } from "@/lib/db/generated/sqlite/directory/client";
import type { ShopHandle } from "@/lib/db/shop";

export interface SecurityLine {
  readonly id: number;
  readonly at: Date;
  readonly who: string;
  readonly act: string;
  readonly detail: string;
}

export interface SecurityPage {
  readonly rows: readonly SecurityLine[];
  /** Asks for the page before: older lines. Null where there are none. */
  readonly next: number | null;
}

const PAGE = 50;

/** What was noted about one person's sign-in, in any shop, newest first. For that person. */
export function eventsOfPerson(personId: string, before?: number): Promise<SecurityPage> {
  return page({ personId }, before);
}

/**
 * What was noted in a shop, and about the sign-ins of its people since they joined, newest first. For its owners: what
 * somebody does in another shop is not theirs to read.
 */
export async function eventsOfShop(shop: ShopHandle, before?: number): Promise<SecurityPage> {
  const { id: shopId, memberships } = await directory().read.shop.findUniqueOrThrow({
    where: { slug: shop.slug },
    select: {
      id: true,
      memberships: { select: { personId: true, createdAt: true }, orderBy: { id: "asc" } },
    },
  });
  // Refusals before they named their shop say it in words: they are left out.
  const people = memberships.map(({ personId, createdAt }) => ({
    personId,
    shopId: null,
    at: { gte: createdAt },
    act: { not: "refused" },
  }));
  return page({ OR: [{ shopId }, ...people] }, before);
}

async function page(where: Prisma.SecurityEventWhereInput, before?: number): Promise<SecurityPage> {
  const found = await directory().read.securityEvent.findMany({
    where: before === undefined ? where : { AND: [where, { id: { lt: before } }] },
    orderBy: { id: "desc" },
    take: PAGE + 1,
  });
  const rows = found.slice(0, PAGE);
  const ids = [...new Set(rows.flatMap((row) => row.personId ?? []))];
  const people = await directory().read.person.findMany({
    where: { id: { in: ids } },
    select: { id: true, name: true },
    orderBy: { id: "asc" },
  });
  const names = new Map(people.map((person) => [person.id, person.name]));
  return {
    rows: rows.map(({ id, at, personId, act, detail }) => ({
      id,
      at,
      who: names.get(personId ?? "") ?? "Somebody",
      act,
      detail,
    })),
    next: found.length > PAGE ? (rows.at(-1)?.id ?? null) : null,
  };
}
