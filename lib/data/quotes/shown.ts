import type { ShopHandle } from "@/lib/db/shop";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import type { QuoteStateName } from "@/lib/schemas/quotes";
import { refusalIn } from "@/lib/words/refusal";
import { hashOf } from "../common/hash";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import { standingExtras } from "./extras";
import { storedFacts } from "./keptFacts";
import { asChosen, type Chosen } from "./offered";
import { stateOn } from "./rows";
import { type ShownText, shownText } from "./shownText";

/** What the customer asked by link, with the shop's answer once there is one. */
export interface ShownQuestion {
  readonly id: number;
  readonly text: string;
  readonly askedAt: Date;
  readonly answer: string;
  readonly answeredAt: Date | null;
}

/** What a customer sees of a quote by link: what was printed, without reasons, stock or calculations. */
export interface ShownQuote extends ShownText {
  readonly state: QuoteStateName;
  readonly hash: string;
  readonly answeredAt: Date | null;
  readonly jobNumber: string | null;
  readonly jobId: number | null;
  readonly zone: string;
  /** True where the address asked for an alternative or an extra that this quote does not offer. */
  readonly strayed: boolean;
  /** Why what the address asked for cannot be agreed to any more; the quote as sent is shown then. */
  readonly refused: { readonly message: string; readonly remedy: string } | null;
  /** Names of extras asked for that do not go with the way chosen. */
  readonly leftOut: readonly string[];
  readonly questions: readonly ShownQuestion[];
}

/** The newest revision of a quote, where it was sent: what a yes told to the desk is said to. */
export async function revisionToAccept(shop: ShopHandle, quoteId: number): Promise<number | null> {
  const newest = await shop.read.quoteRevision.findFirst({
    where: { quoteId },
    select: { id: true, frozenAt: true },
    orderBy: { number: "desc" },
  });
  return newest?.frozenAt ? newest.id : null;
}

/** The quote of a link's revision in one of its alternatives, with some of its extras; null where it has been changed since or was never sent. */
export async function shownQuote(
  shop: ShopHandle,
  revisionId: number,
  asked: Chosen = {},
  /** Whose language it is read in; the quote's own where it is not said. */
  locale?: string,
): Promise<ShownQuote | null> {
  const row = await shop.read.quoteRevision.findUnique({
    where: { id: revisionId },
    select: {
      number: true,
      frozen: true,
      hash: true,
      facts: true,
      job: { select: { id: true, number: true } },
      quote: {
        select: {
          state: true,
          validUntil: true,
          revisionNumber: true,
          answeredAt: true,
          variationOf: { select: { id: true, number: true } },
          questions: {
            select: { id: true, text: true, askedAt: true, answer: true, answeredAt: true },
            orderBy: { id: "asc" },
            take: 20,
          },
        },
      },
    },
  });
  if (!row || row.frozen === null || row.hash === null || row.number !== row.quote.revisionNumber)
    return null;
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const today = dayIn(zone, shop.now);
  const sent = storedQuote(row.frozen);
  const facts = storedFacts(row.facts);
  const alternative = sent.alternatives?.find((w) => w.letter === asked.alternative)?.letter;
  const extras = asked.extras ?? [];
  const { plain, standing, frozen, refused } = await asAsked(
    sent,
    facts,
    { alternative, extras },
    locale ?? sent.locale,
  );
  const known = [...(sent.extras ?? []), ...(plain.extras ?? [])];
  const has = (list: readonly { key: string }[] | undefined, key: string) =>
    (list ?? []).some((one) => one.key === key);
  const gone = extras.filter((key) => !has(plain.extras, key) && !has(plain.options, key));
  return {
    ...shownText(frozen, today),
    state: stateOn(today, row.quote),
    hash: frozen === sent ? row.hash : hashOf(frozen),
    answeredAt: row.quote.answeredAt,
    jobId: row.job?.id ?? row.quote.variationOf?.id ?? null,
    jobNumber: row.job?.number ?? row.quote.variationOf?.number ?? null,
    zone,
    refused,
    strayed:
      (asked.alternative !== undefined && alternative === undefined) || gone.some((key) => !has(known, key)),
    leftOut: known.filter((e, at) => gone.includes(e.key) && known.indexOf(e) === at).map((e) => e.name),
    extras: (plain.extras ?? []).map((e) => ({
      ...e,
      taken: standing.taken.includes(e.key),
      because: standing.refused.find((r) => r.key === e.key)?.because ?? "",
    })),
    questions: row.quote.questions,
  };
}

/** The quote in the way and with the extras asked for; as sent where the kept facts do not give that any more. */
async function asAsked(
  sent: FrozenQuote,
  facts: QuoteFacts | null,
  { alternative, extras }: { alternative: string | undefined; extras: readonly string[] },
  locale: string,
) {
  const none = { taken: [] as string[], refused: [] as { key: string; because: string }[] };
  try {
    const plain = await asChosen(sent, facts, { alternative });
    const standing = facts && extras.length > 0 ? standingExtras(facts, plain, extras, locale) : none;
    const frozen = await asChosen(sent, facts, { alternative, extras: standing.taken });
    return { plain, standing, frozen, refused: null };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    const { message, remedy } = refusalIn(cause, locale);
    return { plain: sent, standing: none, frozen: sent, refused: { message, remedy } };
  }
}
