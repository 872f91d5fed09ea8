import { directory } from "@/lib/db/directory";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { eraseCustomer, type FileBin } from "./erase";
import { ERASED, isErased } from "./known";
import { noteErased } from "./noted";

/** So many erasures of a shop are looked through: a shop of thirty years has fewer. */
const MOST = 5_000;

interface Differences {
  /** Erased, as the directory knows, and here again: the shop comes from an older copy. */
  readonly here: readonly { readonly id: number; readonly version: number }[];
  /** Erased here, of which the directory does not know. */
  readonly unknown: readonly number[];
}

async function differences(shop: ShopHandle): Promise<Differences> {
  const known = await directory().read.erasedCustomer.findMany({
    where: { shop: { database: shop.database } },
    select: { customerId: true, at: true },
    orderBy: { customerId: "asc" },
    take: MOST,
  });
  const at = new Map(known.map((row) => [row.customerId, row.at]));
  const some = (await shop.read.customer.findMany({
    where: { OR: [{ id: { in: [...at.keys()] } }, { name: { startsWith: ERASED } }] },
    select: { id: true, name: true, version: true, createdAt: true },
    orderBy: { id: "asc" },
    take: 2 * MOST,
  })) as readonly { id: number; name: string; version: number; createdAt: Date }[];
  return {
    here: some.filter((one) => {
      const erased = at.get(one.id);
      // After a restore a number may be given to another customer: who came later was never erased.
      return erased !== undefined && !isErased(one) && one.createdAt < erased;
    }),
    unknown: some.filter((one) => isErased(one) && !at.has(one.id)).map(({ id }) => id),
  };
}

/** Whether the shop and the directory differ in who was erased, as after a restore. */
export async function hasErasedToSettle(shop: ShopHandle): Promise<boolean> {
  const { here, unknown } = await differences(shop);
  return here.length + unknown.length > 0;
}

/**
 * Erases those again who were erased before the shop was put back from an older copy, and tells the directory of erasures that it does
 * not know of. Who has something open in the copy is tried again on another day. Answers how many were erased.
 */
export async function settleErased(shop: ShopHandle, files: FileBin): Promise<number> {
  const { here, unknown } = await differences(shop);
  for (const id of unknown) await noteErased(shop, id);
  let erased = 0;
  for (const one of here)
    try {
      await eraseCustomer(shop, one, files);
      erased += 1;
    } catch (cause) {
      if (!(cause instanceof Refusal)) throw cause;
    }
  return erased;
}
