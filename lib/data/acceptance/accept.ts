import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import type { WishFields } from "@/lib/schemas/wishes";
import type { Language } from "@/lib/words/language";
import { SaidRefusal } from "@/lib/words/refusal";
import { hashOf } from "../common/hash";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import { demandWish, keepWish } from "../jobs/wishes";
import { WORKS } from "../packages/works";
import { storedFacts } from "../quotes/keptFacts";
import { asChosen, type Chosen } from "../quotes/offered";
import { answerFindingIn } from "../quotes/write";
import { acceptedAsChosen, addChosenRevision, listed } from "./chosen";
import { type Accepted, beginJob } from "./job";
import { mailYes } from "./mail";

/** The way and the extras chosen: what was shown is then the quote as that; and when the customer would like it. */
export interface Accepting extends Chosen, Partial<WishFields> {
  readonly revisionId: number;
  readonly typedName: string;
  readonly acknowledgements: readonly string[];
  /** The hash of what the customer was shown. */
  readonly shownHash: string;
  /** How the yes came: the browser's name, or who was told by phone. */
  readonly agent: string;
  /** In which language it was read; left out for a yes told to the desk. */
  readonly language?: Language | undefined;
  readonly key?: string | undefined;
}

/**
 * The customer's yes: its proof, the job with its steps and hold points, the target settings and the reserved parts, in
 * one transaction. A revision is accepted once: said again, by anyone, it answers the job that there is.
 */
export async function acceptQuote(shop: ShopHandle, input: Accepting): Promise<Accepted> {
  return shop.write(async (tx) => {
    const row = await tx.quoteRevision.findUnique({ where: { id: input.revisionId }, select: ROW });
    if (!row) throw new Refusal("There is no such quote.", "Ask the shop for it.", {}, "missing");
    const job = row.job ?? row.quote.variationOf;
    if (row.acceptance && job) return { jobId: job.id, jobNumber: job.number, short: [], again: true };
    const before = await acceptedAsChosen(tx, row);
    if (before) return before;
    const { sent, today } = await demandOpen(tx, shop, row);
    if (row.hash === null || hashOf(row.frozen) !== row.hash)
      throw new Error(`The frozen quote ${sent.number}, revision ${sent.revision}, does not match its hash.`);
    const frozen = await asChosen(sent, storedFacts(row.facts), input);
    demandProof(frozen, frozen === sent ? row.hash : hashOf(frozen), input);
    const wish = demandWish(input, today);
    await demandOne(
      tx.quote.updateMany({
        where: { id: row.quote.id, state: "sent", revisionNumber: row.number },
        data: { state: "accepted", answeredAt: shop.now, ...listed(frozen), version: { increment: 1 } },
      }),
      () => changed(row.quote.number),
    );
    const revisionId = frozen !== sent ? await addChosenRevision(tx, shop, row, frozen) : row.id;
    await tx.acceptance.create({
      data: {
        revisionId,
        typedName: input.typedName,
        acknowledgements: [...input.acknowledgements],
        shownHash: input.shownHash,
        agent: input.agent.slice(0, 300),
        language: input.language ?? "",
        at: shop.now,
      },
      select: { id: true },
    });
    const made = await beginJob(tx, shop, { revisionId, ...row.quote, frozen });
    await keepLinksOpen(tx, shop, [row.id, revisionId]);
    if (wish) await keepWish(tx, shop, { jobId: made.jobId, revisionId }, wish);
    await answerFindingIn(tx, row.quote.findingId, "agreed");
    await mailYes(tx, shop, {
      quoteId: row.quote.id,
      to: row.quote.customer,
      frozen,
      hash: frozen === sent ? row.hash : hashOf(frozen),
      job: made.jobNumber,
      name: input.typedName,
      wish,
      language: input.language ?? "",
    });
    await audit(tx, shop, "accepted", "quote", row.quote.id, {
      number: row.quote.number,
      revision: frozen.revision,
      ...(frozen.alternative ? { alternative: frozen.alternative.letter } : {}),
      ...(input.extras?.length ? { extras: [...input.extras] } : {}),
      typedName: input.typedName,
      job: made.jobNumber,
    });
    return { ...made, again: false };
  });
}

/** How long a quote's link goes on as the job's page, in days (judgement). */
const DAYS_AFTER_YES = 180;

/** The link of an accepted quote outlives the quote: it leads to the job now. */
async function keepLinksOpen(tx: ShopTx, shop: ShopHandle, revisionIds: readonly number[]): Promise<void> {
  await tx.customerLink.updateMany({
    where: { revisionId: { in: [...revisionIds] }, purpose: "quote", revokedAt: null },
    data: { expiresAt: new Date(shop.now.getTime() + DAYS_AFTER_YES * 86_400_000) },
  });
}

/** A yes that was said by phone or at the desk: the desk types the customer's name and how it was said. */
export async function acceptForCustomer(
  shop: ShopHandle,
  input: Omit<Accepting, "agent" | "language"> & { readonly how: string },
): Promise<Accepted> {
  const { how, ...rest } = input;
  return acceptQuote(shop, { ...rest, agent: `told to ${shop.by.name}: ${how}` });
}

const ROW = {
  id: true,
  number: true,
  works: WORKS,
  conditions: true,
  terms: true,
  facts: true,
  frozen: true,
  hash: true,
  acceptance: { select: { id: true } },
  job: { select: { id: true, number: true } },
  quote: {
    select: {
      id: true,
      number: true,
      state: true,
      title: true,
      revisionNumber: true,
      findingId: true,
      validUntil: true,
      bikeId: true,
      customerId: true,
      searchKey: true,
      customer: { select: { email: true, noLetters: true } },
      variationOf: { select: { id: true, number: true } },
    },
  },
} as const;

interface Row {
  readonly number: number;
  readonly frozen: unknown;
  readonly quote: {
    readonly number: string;
    readonly state: string;
    readonly revisionNumber: number;
    readonly validUntil: string;
  };
}

async function demandOpen(
  tx: ShopTx,
  shop: ShopHandle,
  { number, frozen, quote }: Row,
): Promise<{ sent: FrozenQuote; today: string }> {
  if (number !== quote.revisionNumber || frozen === null) throw changed(quote.number);
  if (quote.state !== "sent")
    throw new SaidRefusal("quoteState", { number: quote.number, state: quote.state }, "askNew", "conflict");
  const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const today = dayIn(zone, shop.now);
  if (quote.validUntil < today)
    throw new SaidRefusal(
      "quoteOver",
      { number: quote.number, day: new Date(`${quote.validUntil}T00:00:00Z`) },
      "quoteOverDo",
      "conflict",
    );
  return { sent: storedQuote(frozen), today };
}

function demandProof(frozen: FrozenQuote, hash: string, input: Accepting): void {
  if (input.shownHash !== hash)
    throw new Refusal(
      "What was shown is not this quote.",
      "Open the quote again, read it, then accept.",
      {},
      "conflict",
    );
  const open = frozen.acknowledgements.filter((a) => !input.acknowledgements.includes(a.key));
  if (open.length > 0)
    throw new Refusal(
      "The quote can be accepted once every box is ticked.",
      "Read and tick each of them.",
      Object.fromEntries(open.map(({ key }) => [`acknowledgements.${key}`, "Tick this to accept."])),
    );
}

function changed(number: string): Refusal {
  return new SaidRefusal("quoteChanged", { number }, "quoteChangedDo", "conflict");
}
