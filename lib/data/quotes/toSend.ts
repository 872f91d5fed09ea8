import type { ShopTx } from "@/lib/db/shop";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import type { QuoteView } from "@/lib/domain/quoting/result";
import { hashOf } from "../common/hash";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import { didHere } from "./didHere";
import { offeredExtras } from "./extras";
import { freeze, letterheadOf } from "./freeze";
import { type KeptAlternative, offeredAlternatives, ownAlternative } from "./offered";
import type { FoundQuote } from "./rows";
import { spokenTo, titled } from "./spoken";

/** What the customer may choose and add; nothing where nothing is offered. */
export async function offerOf(
  facts: QuoteFacts,
  view: QuoteView,
  kept: readonly KeptAlternative[],
  letters: readonly string[],
): Promise<Pick<FrozenQuote, "extras" | "alternatives" | "alternative">> {
  const alternatives = await offeredAlternatives(facts, view, kept, letters);
  const alternative = await ownAlternative(facts, view, alternatives);
  const extras = await offeredExtras(facts, view);
  return {
    ...(extras.length > 0 ? { extras } : {}),
    ...(alternative && alternatives.length > 1 ? { alternatives, alternative } : {}),
  };
}

/**
 * The letters of the alternatives that went along, where a revised draft would say to its customer what was sent to them before; null
 * where it says anything else, or nothing was sent. Its number, its day and its last day do not count.
 */
export async function unchangedSince(
  db: Pick<ShopTx, "quoteRevision" | "settings" | "phrase" | "effect" | "taxTerms">,
  found: FoundQuote,
  staffFacts: QuoteFacts,
  kept: readonly KeptAlternative[],
): Promise<readonly string[] | null> {
  const { quote, revision } = found;
  if (revision.number === 1) return null;
  const before = await db.quoteRevision.findUnique({
    where: { quoteId_number: { quoteId: quote.id, number: revision.number - 1 } },
    select: { frozen: true },
  });
  if (!before?.frozen) return null;
  const sent = storedQuote(before.frozen);
  const letters = (sent.alternatives ?? []).map((one) => one.letter).filter(Boolean);
  if (letters.some((letter) => !kept.some((one) => one.letter === letter))) return null;
  const { facts, say } = await spokenTo(db, staffFacts, quote.customer.language);
  const view = computeQuote(facts);
  if (!view.sendable) return null;
  const offered = await offerOf(facts, view, kept, letters);
  const now = freeze(titled(found, say), facts, view, await letterheadOf(db, say), sent.sentOn, {
    ...offered,
    ...(await didHere(db, found)),
  });
  return hashOf(lasting(now)) === hashOf(lasting(sent)) ? letters : null;
}

const lasting = ({ revision: _r, sentOn: _s, validUntil: _v, ...rest }: FrozenQuote) => rest;
