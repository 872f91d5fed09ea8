import type { ShopHandle } from "@/lib/db/shop";
import { airOf, type Conditions } from "@/lib/domain/air/conditions";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteFacts, ShopTerms } from "@/lib/domain/quoting/facts";
import type { QuoteView } from "@/lib/domain/quoting/result";
import type { QuoteTerms } from "@/lib/domain/quoting/terms";
import { dayIn } from "@/lib/domain/schedule/days";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import type { FuelCurve } from "@/lib/domain/tuning/targetTypes";
import { ConditionsSchema, type QuoteStateName } from "@/lib/schemas/quotes";
import { bikeName } from "../bikes/bikeName";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import { type ExtraChoice, extraChoices } from "./extras";
import { factsOf, findQuote, stateOn } from "./rows";
import { turn } from "./turn";
import { type KeptWay, keptWays, sameTicks, wayView } from "./ways";
import { withoutCost } from "./withoutCost";

export interface QuoteSheet {
  readonly id: number;
  readonly number: number;
  readonly title: string;
  readonly state: QuoteStateName;
  readonly version: number;
  readonly validUntil: string;
  readonly sentAt: Date | null;
  readonly answeredAt: Date | null;
  readonly declineReason: string;
  readonly callOn: string | null;
  readonly remindedAt: Date | null;
  readonly questions: readonly QuestionView[];
  readonly customer: {
    readonly id: number;
    readonly name: string;
    readonly email: string;
    readonly phone: string;
  };
  readonly bike: { readonly id: number; readonly name: string; readonly plate: string };
  readonly package: { readonly id: number; readonly name: string; readonly revision: number };
  readonly revisionId: number;
  readonly revisionNumber: number;
  readonly conditions: Conditions;
  readonly hash: string | null;
  /** The quote as it would print today; for a draft. */
  readonly draft: DraftSheet | null;
  /** The quote as it was printed. */
  readonly frozen: FrozenQuote | null;
  readonly earlier: readonly {
    readonly number: number;
    readonly frozenAt: Date | null;
    readonly grossMinor: number;
  }[];
  readonly acceptance: { readonly typedName: string; readonly agent: string; readonly at: Date } | null;
  readonly job: { readonly id: number; readonly number: number } | null;
  readonly variationOf: { readonly id: number; readonly number: number } | null;
  readonly links: readonly {
    readonly createdAt: Date;
    readonly expiresAt: Date;
    readonly openedAt: Date | null;
    readonly revokedAt: Date | null;
  }[];
  readonly terms: ShopTerms;
}

export interface DraftSheet extends QuoteView {
  readonly mixture: readonly Mixture[];
  readonly agreed: QuoteTerms;
  readonly extras: readonly ExtraChoice[];
  /** Kept ways that could go along when it is sent. */
  readonly ways: readonly KeptChoice[];
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

export interface QuestionView {
  readonly id: number;
  readonly text: string;
  readonly askedAt: Date;
  readonly answer: string;
  readonly answeredAt: Date | null;
  readonly answeredBy: string;
}

export interface Mixture {
  readonly name: string;
  readonly before: FuelCurve;
  readonly after: FuelCurve;
}

/** One quote with what its state calls for; null where there is none. Costs and margin only where `margin` says so. */
export async function getQuote(
  shop: ShopHandle,
  id: number,
  { margin }: { margin: boolean },
): Promise<QuoteSheet | null> {
  const found = await findQuote(shop.read, id);
  if (!found) return null;
  const { quote, revision } = found;
  const facts = await factsOf(shop.read, found, shop.now);
  const [earlier, extra, links, questions, kept] = await Promise.all([
    shop.read.quoteRevision.findMany({
      where: { quoteId: id, number: { lt: revision.number } },
      select: { number: true, frozenAt: true, grossMinor: true },
      orderBy: { number: "desc" },
      take: 20,
    }),
    shop.read.quoteRevision.findUniqueOrThrow({
      where: { id: revision.id },
      select: {
        acceptance: { select: { typedName: true, agent: true, at: true } },
        job: { select: { id: true, number: true } },
      },
    }),
    shop.read.customerLink.findMany({
      where: { revisionId: revision.id, purpose: "quote" },
      select: { createdAt: true, expiresAt: true, openedAt: true, revokedAt: true },
      orderBy: { id: "desc" },
      take: 5,
    }),
    shop.read.quoteQuestion.findMany({
      where: { quoteId: id },
      select: { id: true, text: true, askedAt: true, answer: true, answeredAt: true, answeredBy: true },
      orderBy: { id: "desc" },
      take: 20,
    }),
    revision.frozen === null ? keptWays(shop.read, id) : [],
  ]);
  const { customer, bike, grossMinor: _g, minutes: _m, createdAt: _c, findingId: _f, ...rest } = quote;
  return {
    ...rest,
    state: stateOn(dayIn(facts.terms.zone, shop.now), quote),
    customer: { id: customer.id, name: customer.name, email: customer.email, phone: customer.phone },
    bike: { id: bike.id, name: bikeName(bike), plate: bike.plate },
    package: {
      id: revision.packageRevision.package.id,
      name: revision.packageRevision.package.name,
      revision: revision.packageRevision.number,
    },
    revisionId: revision.id,
    revisionNumber: revision.number,
    conditions: ConditionsSchema.parse(revision.conditions),
    hash: revision.hash,
    draft: revision.frozen === null ? await drawn(facts, kept, margin) : null,
    frozen: revision.frozen === null ? null : storedQuote(revision.frozen),
    earlier,
    acceptance: extra.acceptance,
    job: extra.job ?? (extra.acceptance ? quote.variationOf : null),
    links,
    questions,
    terms: facts.terms,
  };
}

async function drawn(facts: QuoteFacts, kept: readonly KeptWay[], margin: boolean): Promise<DraftSheet> {
  const view = computeQuote(facts);
  const { agreed } = facts;
  const extras = extraChoices(facts, view);
  const air = airOf(facts.conditions, facts.terms.latitude);
  const mixture = (view.target.sheet?.carburettors ?? []).map((c) => ({
    name: c.name,
    before: fuelCurve(c.before, air, 40),
    after: fuelCurve(c.after, air, 40),
  }));
  const ways: KeptChoice[] = [];
  for (const way of kept) {
    await turn();
    ways.push(keptChoice(facts, view, way));
  }
  if (margin) return { ...view, mixture, agreed, extras, ways };
  const price = {
    ...view.price,
    lines: view.price.lines.map(withoutCost),
    costMinor: 0,
    marginBp: null,
    warnings: [],
  };
  const parts = view.parts.map((part) => ({ ...part, costE4: null }));
  const lines = agreed.lines.map((line) => ({ ...line, costMinor: 0 }));
  return { ...view, price, parts, mixture, agreed: { ...agreed, lines }, extras, ways };
}

function keptChoice(facts: QuoteFacts, view: QuoteView, { letter, name, choices }: KeptWay): KeptChoice {
  const its = wayView(facts, choices);
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
