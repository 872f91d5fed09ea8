import { directory } from "@/lib/db/directory";
import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { clearAwayNowOrLater } from "./createShop";

/** So long an owner, or another one, may take it back. */
export const ERASURE_DAYS = 7;

/** When a shop is erased; null where nobody asked for it. */
export async function erasureOf(shopId: string): Promise<{ askedAt: Date; dueAt: Date } | null> {
  return directory().read.shopErasure.findUnique({
    where: { shopId },
    select: { askedAt: true, dueAt: true },
  });
}

/** Asks for a shop to be erased, after some days in which that can be taken back. Its name must be given as it is. */
export async function askToEraseShop(
  shop: ShopHandle & { readonly shopId: string; readonly name: string },
  typedName: string,
): Promise<void> {
  if (typedName.trim() !== shop.name)
    throw new Refusal(
      "That is not the name of this shop. Nothing was begun.",
      "Type its name just as it stands here.",
      { name: "Not the name of this shop." },
    );
  const dueAt = new Date(shop.now.getTime() + ERASURE_DAYS * 86_400_000);
  const { shopId } = shop;
  const begun = await directory().write(async (tx) => {
    if (await tx.shopErasure.findUnique({ where: { shopId }, select: { shopId: true } })) return false;
    await tx.shopErasure.create({
      data: { shopId, askedBy: shop.by.personId, askedAt: shop.now, dueAt },
      select: { shopId: true },
    });
    await tx.securityEvent.create({
      data: { at: shop.now, act: "asked to erase the shop", personId: shop.by.personId, shopId },
    });
    return true;
  });
  if (begun) await shop.write((tx) => audit(tx, shop, "asked to erase the shop", "shop", null));
}

export async function takeBackErasure(shop: ShopHandle, shopId: string): Promise<void> {
  await directory().write(async (tx) => {
    await demandOne(
      tx.shopErasure.deleteMany({ where: { shopId } }),
      () => new Refusal("Nobody asked for this shop to be erased (any more).", "Load the page again."),
    );
    await tx.securityEvent.create({
      data: { at: shop.now, act: "took back erasing the shop", personId: shop.by.personId, shopId },
    });
  });
  await shop.write((tx) => audit(tx, shop, "took back erasing the shop", "shop", null));
}

/** Shops whose days are over. */
export async function shopsToErase(now: Date): Promise<{ shopId: string; slug: string }[]> {
  const rows = await directory().read.shopErasure.findMany({
    where: { dueAt: { lte: now } },
    select: { shopId: true, shop: { select: { slug: true } } },
    orderBy: { dueAt: "asc" },
    take: 20,
  });
  return rows.map(({ shopId, shop }) => ({ shopId, slug: shop.slug }));
}

/**
 * Erases a shop for good: its place in the directory with memberships and invitations, its database and its pictures. People keep their
 * accounts. Answers the name of its kept export, empty for none, and whether all of it is gone: a stop in between, or a database server
 * that is away, leaves the rest to the sweep of unfinished shops.
 */
export async function eraseShop(shopId: string, now: Date): Promise<{ file: string; wholly: boolean }> {
  const gone = await directory().write(async (tx) => {
    const shop = await tx.shop.findUnique({
      where: { id: shopId },
      select: { database: true, server: true, export: { select: { file: true } } },
    });
    if (!shop) throw new Refusal("There is no such shop (any more).", "Nothing was erased.", {}, "missing");
    // Noted before it goes from the directory: a stop in between leaves it to the sweep.
    const { database, server } = shop;
    await tx.shopInMaking.create({
      data: { database, server, startedAt: now },
      select: { database: true },
    });
    await tx.sampleShop.deleteMany({ where: { shopId } });
    await tx.shop.delete({ where: { id: shopId }, select: { id: true } });
    await tx.securityEvent.create({ data: { at: now, act: "the shop was erased", shopId } });
    return shop;
  });
  const wholly = await clearAwayNowOrLater(gone);
  return { file: gone.export?.file ?? "", wholly };
}
