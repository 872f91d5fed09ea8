import { giveWay } from "@/lib/db/giveWay";
import { airOf } from "@/lib/domain/air/conditions";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import { handPartsOf } from "@/lib/domain/quoting/handParts";
import type { QuoteView } from "@/lib/domain/quoting/result";
import type { QuoteTerms } from "@/lib/domain/quoting/terms";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import type { FuelCurve } from "@/lib/domain/tuning/targetTypes";
import { extraStops } from "./extraStops";
import { type ExtraChoice, extraChoices } from "./extras";
import { type BelowLeast, type BelowMargin, isAllowed, pricesBelow } from "./leastMargin";
import { alternativeView, type KeptAlternative, sameTicks } from "./offered";
import { withoutCost } from "./withoutCost";

export interface DraftView extends QuoteView {
  readonly mixture: readonly Mixture[];
  readonly agreed: QuoteTerms;
  readonly extras: readonly ExtraChoice[];
  /** Kept alternatives that could go along when it is sent. */
  readonly alternatives: readonly KeptChoice[];
  /** Prices below the least margin that it may come to; for those who may see margins. */
  readonly below: readonly BelowLeast[];
}

export interface KeptChoice {
  readonly letter: string;
  readonly name: string;
  readonly options: readonly string[];
  readonly grossMinor: number;
  /** True where it is what the draft says now. */
  readonly now: boolean;
  /** What keeps it from being sent; empty where nothing does. */
  readonly stop: string;
}

export interface Mixture {
  readonly name: string;
  readonly before: FuelCurve;
  readonly after: FuelCurve;
}

/** A draft as it would print now, with what is shown beside it; costs and margin only where `margin` says so. */
export async function drawn(
  facts: QuoteFacts,
  kept: readonly KeptAlternative[],
  margin: boolean,
  said: BelowMargin | null,
): Promise<DraftView> {
  const plain = computeQuote(facts);
  const more = await extraStops(facts, plain, said);
  const own = withMargin(plain, said);
  const view = { ...own, warnings: [...own.warnings, ...more], sendable: own.sendable && more.length === 0 };
  const { agreed } = facts;
  const extras = extraChoices(facts, view);
  const air = airOf(facts.conditions, facts.terms);
  const mixture = (view.target.sheet?.carburettors ?? []).map((c) => ({
    name: c.name,
    before: fuelCurve(c.before, air, 40),
    after: fuelCurve(c.after, air, 40),
  }));
  const alternatives: KeptChoice[] = [];
  for (const alternative of kept) {
    await giveWay();
    alternatives.push(keptChoice(facts, view, alternative, said));
  }
  if (margin) {
    const below = await pricesBelow(facts, plain, kept, said);
    return { ...view, mixture, agreed, extras, alternatives, below };
  }
  const price = {
    ...view.price,
    lines: view.price.lines.map(withoutCost),
    costMinor: 0,
    marginBp: null,
    warnings: [],
  };
  const parts = view.parts.map((part) => ({ ...part, costE4: null }));
  const lines = agreed.lines.map((line) => ({ ...line, costMinor: 0 }));
  const byHand = handPartsOf(agreed).map(({ costMinor: _, ...part }) => part);
  return {
    ...view,
    price,
    parts,
    mixture,
    agreed: { ...agreed, lines, parts: byHand },
    extras,
    alternatives,
    below: [],
  };
}

/** A price below the least margin waits for whoever may allow it. */
function withMargin(view: QuoteView, said: BelowMargin | null): QuoteView {
  if (isAllowed(view, said)) return view;
  const warning = {
    message: "This price is below the shop's least margin.",
    remedy: "Change it, or ask an owner to allow it with a reason.",
    stops: true,
    place: "margin" as const,
  };
  return { ...view, warnings: [...view.warnings, warning], sendable: false };
}

function keptChoice(
  facts: QuoteFacts,
  view: QuoteView,
  { letter, name, choices }: KeptAlternative,
  said: BelowMargin | null,
): KeptChoice {
  const its = withMargin(alternativeView(facts, choices), said);
  const ticked = its.groups.flatMap((g) => g.options).filter((o) => o.ticked);
  return {
    letter,
    name,
    options: ticked.map((o) => o.name),
    grossMinor: its.price.grossMinor,
    now: sameTicks(its, view),
    stop: its.sendable ? "" : (its.warnings.find((w) => w.stops)?.message ?? "Nothing is chosen."),
  };
}
