import type { ShopTx } from "@/lib/db/shop";
import { openingHours } from "@/lib/domain/schedule/openingHours";
import { taxRegime } from "@/lib/domain/tax/rates";
import { languageOf } from "@/lib/words/language";
import { LETTERHEAD } from "../shop/letterhead";
import { phrasebook } from "../shop/phrases";
import { hoursOf } from "./facts";

/** More people than this do not make a shop's hours any longer. */
const MOST_PEOPLE = 50;

/** How a customer reaches the shop, in their language: who it is, where, by what, and when somebody is there. */
export async function reachOf(
  shop: { readonly read: Pick<ShopTx, "settings" | "staff" | "phrase"> },
  locale: string,
) {
  const { taxRegime: regime, ...settings } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { ...LETTERHEAD, taxRegime: true },
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
    numberName: taxRegime(regime).numberName,
    hours: openingHours(people.map(({ hours }) => hoursOf(hours))),
  };
}

export type Reach = Awaited<ReturnType<typeof reachOf>>;
