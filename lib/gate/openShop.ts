import { configuration } from "@/lib/configuration/configuration";
import { createShop, type OpenedShop } from "@/lib/data/people/signUp";
import { limit } from "./limit";

const DAY = 86_400_000;

/** Opens a shop for a person, who may open so many a day and have so many at all: each is a database of its own. */
export async function openShopFor(personId: string, name: string, now: Date): Promise<OpenedShop> {
  const { SHOPS_PER_DAY, SHOPS_PER_PERSON } = configuration();
  await limit(`shops opened by ${personId}`, SHOPS_PER_DAY, DAY, now);
  return createShop(name, personId, now, undefined, SHOPS_PER_PERSON);
}
