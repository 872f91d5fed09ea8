import { giveWay } from "@/lib/db/giveWay";
import type { ShopTx } from "@/lib/db/shop";
import { airOf } from "@/lib/domain/air/conditions";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import type { QuoteView } from "@/lib/domain/quoting/result";
import { Refusal } from "@/lib/domain/refusal";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { LETTERS } from "@/lib/schemas/quoteLife";
import { refused } from "@/lib/words/refused";
import type { FrozenAlternative, FrozenQuote } from "../documents/quote";
import { demandAsShown } from "./asShown";
import { offeredExtras, withExtras } from "./extras";
import { computedPart, settingsOf } from "./freeze";
import { choicesOf } from "./rows";

/** More than these side by side are not compared, they are guessed at. Judgement. */
const MOST_CHOICES = 3;
const CURVE_POINTS = 15;

export interface KeptAlternative {
  readonly letter: string;
  readonly name: string;
  readonly choices: unknown;
}

/** The alternatives kept of a draft, by letter. */
export function keptAlternatives(
  db: Pick<ShopTx, "quoteAlternative">,
  quoteId: number,
): Promise<KeptAlternative[]> {
  return db.quoteAlternative.findMany({
    where: { quoteId },
    select: { letter: true, name: true, choices: true },
    orderBy: { letter: "asc" },
    take: LETTERS.length,
  });
}

/** A kept alternative as of these facts: options that the package no longer has fall away. */
export function alternativeView(facts: QuoteFacts, choices: unknown): QuoteView {
  const known = choicesOf(choices).filter((key) => facts.recipe.options.some((o) => o.key === key));
  return computeQuote({ ...facts, choices: known });
}

export const sameTicks = (a: QuoteView, b: QuoteView): boolean =>
  [...a.choice.chosen].sort().join() === [...b.choice.chosen].sort().join();

/**
 * The ways that go along with a quote, the quote itself among them: as the letter it equals, or first without one.
 * Refuses a letter that is not kept, an alternative that cannot be sent as it is, and more choices than are shown.
 */
export async function offeredAlternatives(
  facts: QuoteFacts,
  view: QuoteView,
  kept: readonly KeptAlternative[],
  letters: readonly string[],
): Promise<FrozenAlternative[]> {
  if (letters.length === 0) return [];
  const alternatives: { alternative: Pick<KeptAlternative, "letter" | "name">; its: QuoteView }[] = [];
  for (const letter of [...new Set(letters)].sort()) {
    await giveWay();
    const alternative = kept.find((k) => k.letter === letter);
    if (!alternative)
      throw new Refusal(
        `Alternative ${letter} is not kept any more.`,
        "Open the quote again.",
        {},
        "conflict",
      );
    const its = alternativeView(facts, alternative.choices);
    if (!its.sendable)
      throw new Refusal(
        `Alternative ${letter} cannot go along: ${its.warnings.find((w) => w.stops)?.message ?? "nothing is chosen."}`,
        "Settle this, or untick it.",
        { alternatives: `Untick alternative ${letter}.` },
      );
    alternatives.push({ alternative, its });
  }
  const own = alternatives.some(({ its }) => sameTicks(its, view));
  const all = own ? alternatives : [{ alternative: { letter: "", name: "" }, its: view }, ...alternatives];
  if (all.length > MOST_CHOICES)
    throw new Refusal(
      `The quote as it stands is none of these alternatives, and ${all.length} choices are too many to compare.`,
      "Untick an alternative, or take one of them into the quote first.",
      { alternatives: "Untick one." },
    );
  return all.map(({ alternative: { letter, name }, its }) => frozenAlternative(facts, its, letter, name));
}

function frozenAlternative(
  facts: QuoteFacts,
  view: QuoteView,
  letter: string,
  name: string,
): FrozenAlternative {
  const ticked = view.groups.flatMap((g) => g.options).filter((o) => o.ticked);
  return {
    letter,
    name,
    choices: [...view.choice.chosen],
    options: ticked.map((o) => o.name),
    grossMinor: view.price.grossMinor,
    depositMinor: view.depositMinor,
    minutes: view.plan.minutes,
    settings: settingsOf(facts, view),
    curve: curveOf(facts, view),
    roadUse: view.acknowledgements.includes("road-use"),
    cautions: view.cautions,
  };
}

/** Lambda of the first carburettor before and after, for a small drawing. */
function curveOf(facts: QuoteFacts, { target }: QuoteView): FrozenAlternative["curve"] {
  const [first] = target.sheet?.carburettors ?? [];
  if (!first) return [];
  const air = airOf(facts.conditions, facts.terms);
  const before = fuelCurve(first.before, air, CURVE_POINTS).points;
  const short = (n: number) => Math.round(n * 1000) / 1000;
  return fuelCurve(first.after, air, CURVE_POINTS).points.map(({ throttle, lambda }, at) => ({
    throttle: short(throttle),
    before: short(before[at]?.lambda ?? lambda),
    after: short(lambda),
  }));
}

/** The letter of the offered alternative that a quote's own ticks are; null where none were offered. */
export async function ownAlternative(
  facts: QuoteFacts,
  view: QuoteView,
  alternatives: readonly FrozenAlternative[],
) {
  for (const { letter, name, choices } of alternatives) {
    await giveWay();
    if (sameTicks(alternativeView(facts, choices), view)) return { letter, name };
  }
  return null;
}

/** What a customer chose of what was offered. */
export interface Chosen {
  /** An alternative's letter; undefined is the quote as sent. */
  readonly alternative?: string | undefined;
  readonly extras?: readonly string[] | undefined;
}

/**
 * The sent quote as its next revision would print it in one of the offered alternatives, from the facts kept at sending: the same
 * alternative gives the same text and hash whenever it is asked. The alternative it was sent in is the sent text itself.
 */
async function asAlternative(
  sent: FrozenQuote,
  facts: QuoteFacts | null,
  letter: string | undefined,
): Promise<FrozenQuote> {
  if (letter === undefined || letter === sent.alternative?.letter) return sent;
  const alternative = sent.alternatives?.find((w) => w.letter === letter);
  const view = alternative && facts ? alternativeView(facts, alternative.choices) : null;
  if (!alternative || !facts || !view?.sendable)
    throw new Refusal(refused.en.noAlternative, refused.en.noAlternativeDo, {}, "conflict");
  demandAsShown(sent, alternative, { grossMinor: view.price.grossMinor, depositMinor: view.depositMinor });
  const printed: FrozenQuote = {
    ...sent,
    ...computedPart(facts, view),
    revision: sent.revision + 1,
    madeFrom: sent.revision,
    alternative: { letter: alternative.letter, name: alternative.name },
    extras: await offeredExtras(facts, view),
  };
  return JSON.parse(JSON.stringify(printed)) as FrozenQuote;
}

/** The sent quote as chosen; the sent text itself where nothing differs. Refuses what was not offered. */
export async function asChosen(
  sent: FrozenQuote,
  facts: QuoteFacts | null,
  chosen: Chosen,
): Promise<FrozenQuote> {
  const { alternative, extras = [] } = chosen;
  const text = await asAlternative(sent, facts, alternative);
  if (extras.length === 0) return text;
  if (facts) return withExtras(text, facts, extras);
  throw new Refusal(refused.en.noExtras, refused.en.noExtrasDo, {}, "conflict");
}
