import type { ShopHandle } from "@/lib/db/shop";
import type { Conditions } from "@/lib/domain/air/conditions";
import type { ShopTerms } from "@/lib/domain/quoting/facts";
import { dayIn } from "@/lib/domain/schedule/days";
import { ConditionsSchema, type QuoteStateName } from "@/lib/schemas/quotes";
import { bikeName } from "../bikes/bikeName";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import { type IntakeView, openIntake } from "../intakes/get";
import { type Withheld, withheldFrom } from "../mail/letters";
import { type DraftView, drawn } from "./draftView";
import { type BelowMargin, storedBelowMargin } from "./leastMargin";
import { letterDue } from "./letters";
import { keptAlternatives } from "./offered";
import { factsOf, findQuote, stateOn } from "./rows";
import { unchangedSince } from "./toSend";
import { type WorkView, workView } from "./workView";

export interface QuotePage {
  readonly id: number;
  readonly number: string;
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
  readonly works: readonly WorkView[];
  readonly revisionId: number;
  readonly revisionNumber: number;
  readonly conditions: Conditions;
  readonly hash: string | null;
  /** Who allowed the price below the least margin, and why; null where nobody had to, and for those who may not see margins. */
  readonly belowMargin: BelowMargin | null;
  /** The quote as it would print today; for a draft. */
  readonly draft: DraftView | null;
  /** Alternatives that went along, where a revised draft still says what its customer was sent before; null for every other. */
  readonly again: readonly string[] | null;
  /** What was told and felt of the bike and no work has answered yet; for a draft. */
  readonly intake: IntakeView | null;
  /** The quote as it was printed. */
  readonly frozen: FrozenQuote | null;
  readonly earlier: readonly {
    readonly number: number;
    readonly frozenAt: Date | null;
    readonly grossMinor: number;
  }[];
  readonly acceptance: { readonly typedName: string; readonly agent: string; readonly at: Date } | null;
  readonly job: { readonly id: number; readonly number: string } | null;
  readonly variationOf: { readonly id: number; readonly number: string } | null;
  readonly links: readonly {
    readonly createdAt: Date;
    readonly expiresAt: Date;
    readonly openedAt: Date | null;
    readonly revokedAt: Date | null;
  }[];
  /** When the customer opened the quote's links, all together; null while nobody did. */
  readonly opened: Opened | null;
  /** Why no letter goes to this customer about it; null where one does. */
  readonly withheld: Withheld | null;
  readonly terms: ShopTerms;
}

export interface Opened {
  readonly firstAt: Date;
  readonly lastAt: Date;
  readonly times: number;
}

export interface QuestionView {
  readonly id: number;
  readonly text: string;
  readonly askedAt: Date;
  readonly answer: string;
  readonly answeredAt: Date | null;
  readonly answeredBy: string;
}

/** One quote with what its state calls for; null where there is none. Costs and margin only where `margin` says so. */
export async function getQuote(
  shop: ShopHandle,
  id: number,
  { margin }: { margin: boolean },
): Promise<QuotePage | null> {
  const found = await findQuote(shop.read, id);
  if (!found) return null;
  const { quote, revision } = found;
  const said = storedBelowMargin(revision.belowMargin);
  const [facts, earlier, extra, links, questions, kept, opened, withheld, intake] = await Promise.all([
    factsOf(shop.read, found, shop.now),
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
    revision.frozen === null ? keptAlternatives(shop.read, id) : [],
    openedOf(shop, revision.id),
    withheldFrom(shop.read, letterDue(quote), quote.customer),
    revision.frozen === null ? openIntake(shop.read, quote.bike.id) : null,
  ]);
  const { customer, bike, grossMinor: _g, minutes: _m, createdAt: _c, findingId: _f, ...rest } = quote;
  return {
    ...rest,
    state: stateOn(dayIn(facts.terms.zone, shop.now), quote),
    customer: { id: customer.id, name: customer.name, email: customer.email, phone: customer.phone },
    bike: { id: bike.id, name: bikeName(bike), plate: bike.plate },
    works: revision.works.map(workView),
    revisionId: revision.id,
    revisionNumber: revision.number,
    conditions: ConditionsSchema.parse(revision.conditions),
    hash: revision.hash,
    belowMargin: margin ? said : null,
    draft: revision.frozen === null ? await drawn(facts, kept, margin, said) : null,
    again: revision.frozen === null ? await unchangedSince(shop.read, found, facts, kept) : null,
    intake,
    frozen: revision.frozen === null ? null : storedQuote(revision.frozen),
    earlier,
    acceptance: extra.acceptance,
    job: extra.job ?? (extra.acceptance ? quote.variationOf : null),
    links,
    opened,
    withheld,
    questions,
    terms: facts.terms,
  };
}

/** A reminder makes a further link, so a quote's openings are those of all its links. */
async function openedOf({ read }: ShopHandle, revisionId: number): Promise<Opened | null> {
  const { _min, _max, _sum } = await read.customerLink.aggregate({
    where: { revisionId, purpose: "quote" },
    _min: { openedAt: true },
    _max: { lastOpenedAt: true },
    _sum: { openings: true },
  });
  return _min.openedAt && _max.lastOpenedAt
    ? { firstAt: _min.openedAt, lastAt: _max.lastOpenedAt, times: _sum.openings ?? 0 }
    : null;
}
