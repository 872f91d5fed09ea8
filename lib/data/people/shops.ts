import { directory } from "@/lib/db/directory";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { hasFactor } from "./secondFactor";

/** The open shops a person belongs to, in the order they joined. */
export async function shopsOf(personId: string) {
  const rows = await directory().read.membership.findMany({
    where: { personId, shop: { closedAt: null } },
    select: { role: true, shop: { select: { slug: true, name: true } } },
    orderBy: { id: "asc" },
  });
  return rows.map((row) => ({ slug: row.shop.slug, name: row.shop.name, role: row.role }));
}

/** The open shops that a person owns and that ask their owners for a second factor. */
export async function shopsAskingFactor(personId: string): Promise<{ name: string }[]> {
  return directory().read.shop.findMany({
    where: {
      closedAt: null,
      ownersNeedFactor: true,
      memberships: { some: { personId, role: "owner" } },
    },
    select: { name: true },
    orderBy: { slug: "asc" },
  });
}

/** True where the shop asks its owners for a second factor. */
export async function asksOwnersForFactor(shop: ShopHandle): Promise<boolean> {
  const found = await directory().read.shop.findUniqueOrThrow({
    where: { slug: shop.slug },
    select: { ownersNeedFactor: true },
  });
  return found.ownersNeedFactor;
}

/** Says whether the shop's owners come in with a second factor only. Who says so has one: nobody locks themselves out. */
export async function askOwnersForFactor(shop: ShopHandle, wanted: boolean): Promise<void> {
  if (wanted && !(await hasFactor(shop.by.personId)))
    throw new Refusal(
      "You have no second factor yourself, so you could not enter this shop any more. Nothing was changed.",
      "Set yours up first, under your name.",
    );
  await directory().write(async (tx) => {
    const { id } = await tx.shop.update({
      where: { slug: shop.slug },
      data: { ownersNeedFactor: wanted },
      select: { id: true },
    });
    const act = wanted ? "asked owners for a second factor" : "stopped asking owners for a second factor";
    await tx.securityEvent.create({ data: { at: shop.now, act, personId: shop.by.personId, shopId: id } });
  });
}
