import type { ShopTx } from "@/lib/db/shop";
import { openingHours } from "@/lib/domain/schedule/openingHours";
import { languageOf } from "@/lib/words/language";
import { LETTERHEAD } from "../shop/letterhead";
import { phrasebook } from "../shop/phrases";
import { numberSaid } from "../shop/taxTerms";
import { hoursOf } from "./facts";

/** More people than this do not make a shop's hours any longer. */
const MOST_PEOPLE = 50;

/** How a customer reaches the shop, in their language: who it is, where, by what, and when somebody is there. */
export async function reachOf(
  shop: { readonly read: Pick<ShopTx, "settings" | "staff" | "phrase" | "taxTerms"> },
  locale: string,
) {
  const { taxRegime, country, ...settings } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { ...LETTERHEAD, taxRegime: true, country: true },
  });
  const people = await shop.read.staff.findMany({
    where: { active: true },
    select: { hours: true },
    orderBy: { id: "asc" },
    take: MOST_PEOPLE,
  });
  const say = await phrasebook(shop.read, languageOf(locale));
  return {
    ...settings,
    documentNote: say(settings.documentNote),
    ...(await numberSaid(shop.read, { taxRegime, country })),
    hours: openingHours(people.map(({ hours }) => hoursOf(hours))),
  };
}

export type Reach = Awaited<ReturnType<typeof reachOf>>;
