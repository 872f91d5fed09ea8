import type { ShopHandle } from "@/lib/db/shop";
import type { Problem } from "@/lib/domain/packages/check";
import { presetChoice } from "@/lib/domain/packages/choose";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteView } from "@/lib/domain/quoting/result";
import type { Pick } from "@/lib/schemas/picks";
import { pickedModelCard, pickModelCards } from "../bikes/pick";
import { conditionsToday } from "../common/air";
import { MOST_NEWEST } from "../common/picks";
import { getPackage, type PackageView } from "../packages/get";
import { triedFacts } from "./facts";
import { settled } from "./write";

export interface Trial {
  readonly package: PackageView;
  readonly cards: readonly Pick[];
  /** The card it is tried on; null until one is chosen. */
  readonly card: Pick | null;
  /** What a quote would come to; null without a card, or while the recipe cannot be worked with. */
  readonly view: QuoteView | null;
  readonly problems: readonly Problem[];
}

/** Problems that leave nothing to compute with: names that mean nothing, circles, work without minutes. */
const BROKEN: readonly Problem["kind"][] = ["name", "duplicate", "cycle", "operation", "access"];

/** A package's revision tried on a model card: what may be chosen, the plan and the price, as a new quote would have them. */
export async function tryPackage(
  shop: ShopHandle,
  input: {
    id: number;
    revision?: number | undefined;
    cardId?: number | undefined;
    ticks: readonly string[] | null;
  },
): Promise<Trial | null> {
  const found = await getPackage(shop, input.id, input.revision);
  if (!found?.shown) return null;
  const [{ rows: cards }, card] = await Promise.all([
    pickModelCards(shop, "", MOST_NEWEST),
    pickedModelCard(shop, input.cardId ?? null),
  ]);
  const { recipe, problems, isChecked } = found.shown;
  const trial = { package: found, cards, card, problems };
  if (!card || !isChecked || problems.some((p) => BROKEN.includes(p.kind))) return { ...trial, view: null };
  const settings = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { altitudeM: true, latitude: true, longitude: true, latitudeSouth: true, zone: true },
  });
  const conditions = conditionsToday(settings, shop.now);
  const facts = await triedFacts(shop.read, { cardId: Number(card.value), recipe, choices: [], conditions });
  if (!facts) return { ...trial, view: null };
  const choices =
    input.ticks === null
      ? presetChoice(recipe, facts.modelFacts)
      : settled(recipe, input.ticks, "", facts.modelFacts);
  return { ...trial, view: computeQuote({ ...facts, choices }) };
}
