import { giveWay } from "@/lib/db/giveWay";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { airOf } from "@/lib/domain/air/conditions";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { PartsReady } from "@/lib/domain/quoting/partsReady";
import { Refusal } from "@/lib/domain/refusal";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { type AlternativeRef, type KeepAlternative, LETTERS } from "@/lib/schemas/quoteLife";
import type { Mixture } from "./draftView";
import { alternativeView, keptAlternatives, sameTicks } from "./offered";
import { choicesOf, conflict, demandQuote, factsOf, findQuote, notADraft } from "./rows";
import { chooseOptions } from "./write";

/** Keeps the present ticks of a draft as its alternative A, B or C; what stood there is written over. */
export async function keepAlternative(shop: ShopHandle, input: KeepAlternative): Promise<void> {
  await shop.write(async (tx) => {
    const found = await demandQuote(tx, input.id);
    const { quote, revision } = found;
    if (quote.state !== "draft") throw notADraft(quote.number, quote.state);
    if (quote.version !== input.version) throw await conflict(tx, quote.id, quote.number);
    const { choice } = computeQuote(await factsOf(tx, found, shop.now));
    const choices = [...(choice.clash ? choicesOf(revision.choices) : choice.chosen)];
    const { letter, name } = input;
    await tx.quoteAlternative.upsert({
      where: { quoteId_letter: { quoteId: quote.id, letter } },
      create: { quoteId: quote.id, letter, name, choices, createdAt: shop.now },
      update: { name, choices, createdAt: shop.now },
      select: { id: true },
    });
    await audit(tx, shop, `kept alternative ${letter} of`, "quote", quote.id, { number: quote.number });
  });
}

/** Puts the ticks of a kept alternative into the draft. */
export async function takeAlternative(shop: ShopHandle, input: AlternativeRef): Promise<void> {
  const kept = await shop.read.quoteAlternative.findUnique({
    where: { quoteId_letter: { quoteId: input.id, letter: input.letter } },
    select: { choices: true },
  });
  if (!kept)
    throw new Refusal(
      `There is no alternative ${input.letter} any more.`,
      "Open the page again.",
      {},
      "missing",
    );
  const { id, version } = input;
  await chooseOptions(shop, { id, version, choices: choicesOf(kept.choices), touched: "" });
}

export async function dropAlternative(shop: ShopHandle, input: AlternativeRef): Promise<void> {
  await shop.write(async (tx) => {
    const { count } = await tx.quoteAlternative.deleteMany({
      where: { quoteId: input.id, letter: input.letter },
    });
    if (count > 0) await audit(tx, shop, `dropped alternative ${input.letter} of`, "quote", input.id);
  });
}

/** One alternative of a quote, computed as of today. */
export interface Alternative {
  readonly letter: string;
  readonly name: string;
  /** True for the ticks that the draft has now. */
  readonly now: boolean;
  readonly options: readonly string[];
  readonly grossMinor: number;
  readonly depositMinor: number;
  readonly minutes: number;
  /** Settings it changes from what is fitted now. */
  readonly settings: readonly {
    readonly key: string;
    readonly carburettor: string;
    readonly value: number;
  }[];
  readonly mixture: readonly Mixture[];
  /** Names of its options for which road-use rules may apply. */
  readonly roadUse: readonly string[];
  readonly ready: PartsReady;
  readonly cautions: readonly string[];
  /** What keeps it from being sent. */
  readonly stops: readonly string[];
  /** What else there is to look at in it, besides the prices of single parts. */
  readonly warnings: readonly string[];
}

export interface Alternatives {
  readonly number: string;
  readonly version: number;
  readonly currency: string;
  readonly locale: string;
  readonly alternatives: readonly Alternative[];
  /** Letters not used yet. */
  readonly free: readonly string[];
}

/** The kept alternatives of a draft side by side; null where there is no such draft. */
export async function getAlternatives(shop: ShopHandle, id: number): Promise<Alternatives | null> {
  const found = await findQuote(shop.read, id);
  if (found?.quote.state !== "draft") return null;
  const [facts, kept] = await Promise.all([
    factsOf(shop.read, found, shop.now),
    keptAlternatives(shop.read, id),
  ]);
  const now = computeQuote(facts);
  const air = airOf(facts.conditions, facts.terms);
  const alternatives: Alternative[] = [];
  for (const { letter, name, choices } of kept) {
    await giveWay();
    const view = alternativeView(facts, choices);
    const carburettors = view.target.sheet?.carburettors ?? [];
    alternatives.push({
      letter,
      name,
      now: sameTicks(view, now),
      options: view.choice.chosen,
      grossMinor: view.price.grossMinor,
      depositMinor: view.depositMinor,
      minutes: view.plan.minutes,
      settings: carburettors.flatMap((c) =>
        c.settings
          .filter((s) => s.value !== s.from)
          .map((s) => ({ key: s.key, carburettor: c.name, value: s.value })),
      ),
      mixture: carburettors.map((c) => ({
        name: c.name,
        before: fuelCurve(c.before, air, 40),
        after: fuelCurve(c.after, air, 40),
      })),
      roadUse: facts.recipe.options
        .filter((o) => o.roadUse && view.choice.chosen.includes(o.key))
        .map((o) => o.name),
      ready: view.ready,
      cautions: view.cautions,
      stops: view.warnings.filter((w) => w.stops).map((w) => w.message),
      warnings: view.warnings.filter((w) => !w.stops && w.partId === undefined).map((w) => w.message),
    });
  }
  return {
    number: found.quote.number,
    version: found.quote.version,
    currency: facts.terms.currency,
    locale: facts.terms.locale,
    alternatives: alternatives.map((w) => ({ ...w, options: named(w.options, facts.recipe.options) })),
    free: LETTERS.filter((l) => !kept.some((k) => k.letter === l)),
  };
}

const named = (keys: readonly string[], options: readonly { key: string; name: string }[]) =>
  options.filter((o) => keys.includes(o.key)).map((o) => o.name);
