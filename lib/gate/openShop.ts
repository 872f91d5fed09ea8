import { createShop, type OpenedShop } from "@/lib/data/people/signUp";
import { limit } from "./limit";

const DAY = 86_400_000;
const perDay = () => Number(process.env.SHOPS_PER_DAY ?? 3);
const perPerson = () => Number(process.env.SHOPS_PER_PERSON ?? 10);

/** Opens a shop for a person, who may open so many a day and have so many at all: each is a database of its own. */
export async function openShopFor(personId: string, name: string, now: Date): Promise<OpenedShop> {
  await limit(`shops opened by ${personId}`, perDay(), DAY, now);
  return createShop(name, personId, now, undefined, perPerson());
}
