import { giveWay } from "@/lib/db/giveWay";
import { choose, chooser } from "@/lib/domain/packages/choose";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import type { QuoteView } from "@/lib/domain/quoting/result";
import { Refusal } from "@/lib/domain/refusal";
import { refused } from "@/lib/words/refused";
import type { FrozenExtra, FrozenQuote } from "../documents/quote";
import { demandAsShown } from "./asShown";
import { extraReason } from "./extraReasons";
import { computedPart } from "./freeze";

/** An option that could be offered as an extra, and whether it is. */
export interface ExtraChoice {
  readonly key: string;
  readonly name: string;
  readonly offered: boolean;
}

/** Answers whether the quote's own choices still stand, as they are, with some options added. */
function beside(facts: QuoteFacts, base: readonly string[]): (extras: readonly string[]) => boolean {
  const chosenWith = chooser(facts.recipe, facts.modelFacts);
  return (extras) => {
    const choice = chosenWith([...base, ...extras]);
    return choice.valid && base.every((key) => choice.chosen.includes(key));
  };
}

/** The options that can be added to a quote without taking anything off it. */
export function extraChoices(facts: QuoteFacts, { choice }: QuoteView): ExtraChoice[] {
  if (!choice.valid) return [];
  const stands = beside(facts, choice.chosen);
  return facts.recipe.options
    .filter((o) => !choice.chosen.includes(o.key) && stands([o.key]))
    .map((o) => ({ key: o.key, name: o.name, offered: facts.agreed.extras.includes(o.key) }));
}

/** The offered extras with what each by itself adds to the total and the work. */
export async function offeredExtras(facts: QuoteFacts, view: QuoteView): Promise<FrozenExtra[]> {
  const extras: FrozenExtra[] = [];
  for (const { key } of extraChoices(facts, view).filter((o) => o.offered)) {
    await giveWay();
    const option = facts.recipe.options.find((o) => o.key === key);
    const then = computeQuote({ ...facts, choices: [...view.choice.chosen, key] });
    if (!option || !then.sendable) continue;
    extras.push({
      key,
      name: option.name,
      plain: option.plain,
      grossMinor: then.price.grossMinor - view.price.grossMinor,
      minutes: then.plan.minutes - view.plan.minutes,
    });
  }
  return extras;
}

/** Of the extras asked for, those that can stand together on the quote, the first asked winning, and why the others cannot. */
export function standingExtras(
  facts: QuoteFacts,
  frozen: FrozenQuote,
  asked: readonly string[],
  locale: string,
): { taken: string[]; refused: { key: string; because: string }[] } {
  const base = frozen.options.map((o) => o.key);
  const offered = (frozen.extras ?? []).map((e) => e.key);
  const stands = beside(facts, base);
  const taken: string[] = [];
  for (const key of new Set(asked)) if (offered.includes(key) && stands([...taken, key])) taken.push(key);
  const { chosen } = choose(facts.recipe, [...base, ...taken], facts.modelFacts);
  const out = offered.filter((key) => !taken.includes(key) && !stands([...taken, key]));
  return {
    taken: [...taken, ...offered.filter((key) => !taken.includes(key) && chosen.includes(key))],
    refused: out.map((key) => ({
      key,
      because: extraReason(facts.recipe, chosen, key, locale),
    })),
  };
}

/**
 * The quote as its next revision would print it with some of the offered extras, from the facts kept at sending: the
 * same extras give the same text and hash whenever it is asked. Refuses extras that were not offered or do not stand together.
 */
export async function withExtras(
  frozen: FrozenQuote,
  facts: QuoteFacts,
  extras: readonly string[],
): Promise<FrozenQuote> {
  const offered = frozen.extras ?? [];
  const base = frozen.options.map((o) => o.key);
  const stray = extras.find((key) => !offered.some((e) => e.key === key));
  const view = stray === undefined ? computeQuote({ ...facts, choices: [...base, ...extras] }) : null;
  if (!view?.sendable || !base.every((key) => view.choice.chosen.includes(key)))
    throw new Refusal(refused.en.extrasTogether, refused.en.extrasTogetherDo, {}, "conflict");
  await demandEachAsShown(frozen, facts, view, extras);
  const printed: FrozenQuote = {
    ...frozen,
    ...computedPart(facts, view),
    ...madeFrom(frozen),
    extras: offered.filter((e) => !view.choice.chosen.includes(e.key)),
    taken: offered.filter((e) => view.choice.chosen.includes(e.key)).map((e) => e.name),
  };
  return JSON.parse(JSON.stringify(printed)) as FrozenQuote;
}

/**
 * Refuses where the kept facts no longer give what was shown: the total that the extras come to, and what each adds by itself. In a
 * alternative other than the sent one the extras were worked out just now, and their total with the way's.
 */
async function demandEachAsShown(
  frozen: FrozenQuote,
  facts: QuoteFacts,
  view: QuoteView,
  extras: readonly string[],
): Promise<void> {
  if (frozen.madeFrom !== undefined) return;
  const base = frozen.options.map((o) => o.key);
  await giveWay();
  const plain = computeQuote({ ...facts, choices: base });
  demandAsShown(frozen, frozen, { grossMinor: plain.price.grossMinor, depositMinor: plain.depositMinor });
  for (const extra of (frozen.extras ?? []).filter((e) => extras.includes(e.key))) {
    await giveWay();
    const alone = extras.length === 1 ? view : computeQuote({ ...facts, choices: [...base, extra.key] });
    const grossMinor = alone.price.grossMinor - plain.price.grossMinor;
    demandAsShown(frozen, extra, { grossMinor });
  }
}

/** A choice of extras and a choice of an alternative make one further revision between them. */
function madeFrom({ revision, madeFrom = revision }: FrozenQuote) {
  return { revision: madeFrom + 1, madeFrom };
}
