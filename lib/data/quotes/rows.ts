import type { ShopTx } from "@/lib/db/shop";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import { Refusal } from "@/lib/domain/refusal";
import type { QuoteStateName } from "@/lib/schemas/quotes";
import { storedWork, WORKS } from "../packages/works";
import { type Db, quoteFacts } from "./facts";

const QUOTE = {
  id: true,
  number: true,
  title: true,
  state: true,
  version: true,
  validUntil: true,
  revisionNumber: true,
  grossMinor: true,
  minutes: true,
  sentAt: true,
  answeredAt: true,
  declineReason: true,
  createdAt: true,
  callOn: true,
  remindedAt: true,
  findingId: true,
  customer: {
    select: {
      id: true,
      name: true,
      email: true,
      phone: true,
      address: true,
      taxNumber: true,
      business: true,
      language: true,
      noLetters: true,
    },
  },
  bike: {
    select: {
      id: true,
      year: true,
      plate: true,
      frameNumber: true,
      modelCard: { select: { make: true, model: true } },
    },
  },
  variationOf: { select: { id: true, number: true } },
} as const;

const REVISION = {
  id: true,
  number: true,
  choices: true,
  conditions: true,
  terms: true,
  belowMargin: true,
  frozen: true,
  hash: true,
  frozenAt: true,
  works: WORKS,
} as const;

/** A quote with its newest revision, in a transaction or for a page. */
export async function findQuote(db: Db & Pick<ShopTx, "quote">, id: number) {
  const [quote, revision] = await Promise.all([
    db.quote.findUnique({ where: { id }, select: QUOTE }),
    db.quoteRevision.findFirst({ where: { quoteId: id }, select: REVISION, orderBy: { number: "desc" } }),
  ]);
  return quote && revision ? { quote, revision } : null;
}

export type FoundQuote = NonNullable<Awaited<ReturnType<typeof findQuote>>>;

export async function demandQuote(tx: ShopTx, id: number): Promise<FoundQuote> {
  const found = await findQuote(tx, id);
  if (!found) throw new Refusal("There is no such quote.", "Choose one from the list.", {}, "missing");
  return found;
}

export function factsOf(db: Db, { quote, revision }: FoundQuote, now: Date): Promise<QuoteFacts> {
  return quoteFacts(db, {
    bikeId: quote.bike.id,
    works: revision.works.map(storedWork),
    choices: choicesOf(revision.choices),
    conditions: revision.conditions,
    terms: revision.terms,
    validUntil: quote.validUntil,
    now,
    jobId: quote.variationOf?.id ?? null,
  });
}

export function choicesOf(json: unknown): string[] {
  return Array.isArray(json) ? json.filter((key) => typeof key === "string") : [];
}

/** A sent quote whose last day is over is expired, without anyone having to say so. */
export function stateOn(today: string, quote: { state: QuoteStateName; validUntil: string }): QuoteStateName {
  return quote.state === "sent" && quote.validUntil < today ? "expired" : quote.state;
}

/** Refuses a version that is no longer the quote's, naming who changed it last. */
export async function conflict(tx: ShopTx, id: number, number: string): Promise<Refusal> {
  const last = await tx.auditEntry.findFirst({
    where: { noun: "quote", nounId: id },
    select: { personName: true, act: true },
    orderBy: { id: "desc" },
  });
  const who = last ? ` ${last.personName} ${last.act} it.` : "";
  return new Refusal(
    `Quote ${number} has changed since you opened it.${who}`,
    "Look at it as it stands now, then do it again.",
    {},
    "conflict",
  );
}

export function notADraft(number: string, state: QuoteStateName): Refusal {
  return new Refusal(`Quote ${number} is ${state}, not a draft.`, "Revise it to change it.", {}, "conflict");
}
