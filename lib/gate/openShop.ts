import { configuration } from "@/lib/configuration/configuration";
import { createShop, type OpenedShop } from "@/lib/data/people/createShop";
import type { ReadyPerson } from "@/lib/data/people/signUp";
import type { ShopHandle } from "@/lib/db/shop";
import { handleFor } from "./handle";
import { limit } from "./limit";

const DAY = 86_400_000;

/** Fills a shop's empty database (prepareShop), acting as its owner. */
export type PrepareShop = (shop: ShopHandle) => Promise<unknown>;

/** Opens a shop for a person, who may open so many a day and have so many at all: each is a database of its own. */
export async function openShopFor(
  owner: { readonly id: string; readonly name: string },
  name: string,
  now: Date,
  prepare: PrepareShop,
): Promise<OpenedShop> {
  await limit(`shops opened by ${owner.id}`, configuration().SHOPS_PER_DAY, DAY, now);
  return create(owner, name, now, prepare);
}

/** Signs a person up with their first shop, as one act. */
export function signUpWithShop(
  owner: ReadyPerson,
  name: string,
  now: Date,
  prepare: PrepareShop,
): Promise<OpenedShop> {
  return create(owner, name, now, prepare);
}

function create(
  owner: ReadyPerson | { readonly id: string; readonly name: string },
  name: string,
  now: Date,
  prepare: PrepareShop,
): Promise<OpenedShop> {
  const by = { personId: owner.id, name: owner.name, role: "owner" as const, staffId: null };
  return createShop(
    {
      name,
      owner,
      most: configuration().SHOPS_PER_PERSON,
      // Its name in addresses is decided as it enters the directory; until then the database's stands in.
      prepare: (place) => prepare(handleFor(place, by, now)),
    },
    now,
  );
}
