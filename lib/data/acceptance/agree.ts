import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { NO_TERMS, type QuoteTerms } from "@/lib/domain/quoting/terms";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { hashOf } from "../common/hash";
import { freeze, letterheadOf } from "../quotes/freeze";
import { demandQuote, factsOf } from "../quotes/rows";
import { type NewRow, newWorks } from "../quotes/works";
import { createIn, figures } from "../quotes/write";
import { beginJob, type ShortPart } from "./job";

export interface AgreedByWord {
  readonly bikeId: number;
  /** The job that the work comes to; null for a job of its own. */
  readonly jobId: number | null;
  readonly title: string;
  readonly works: readonly NewRow[];
  readonly discount?: QuoteTerms["discount"];
  readonly saidBy: string;
  /** How the yes came, in words. */
  readonly agent: string;
}

/**
 * Work that is agreed without a quote having been sent: a quote is written, frozen and accepted at once, so that card, parts, price
 * and invoice stand on the same text as everywhere. Refuses what could not be sent either, but for a margin that is too small;
 * `demand` may refuse what it comes to, with tax.
 */
export async function agreeIn(
  tx: ShopTx,
  shop: ShopHandle,
  work: AgreedByWord,
  demand: (grossMinor: number) => void,
): Promise<{ jobId: number; jobNumber: string; quoteId: number; short: ShortPart[] }> {
  const { bikeId, title } = work;
  const variationOfId = work.jobId ?? undefined;
  const quoteId = await createIn(tx, shop, { bikeId, title, variationOfId });
  const { id } = (await demandQuote(tx, quoteId)).revision;
  const terms = work.discount ? { ...NO_TERMS, discount: work.discount } : null;
  await tx.quoteRevision.update({
    where: { id },
    data: {
      works: newWorks(work.works),
      ...(terms ? { terms: terms as unknown as Prisma.InputJsonObject } : {}),
    },
    select: { id: true },
  });
  const found = await demandQuote(tx, quoteId);
  const facts = await factsOf(tx, found, shop.now);
  const view = computeQuote(facts);
  const stop = view.warnings.find((warning) => warning.stops);
  if (stop) throw new Refusal(stop.message, stop.remedy || "Put it right first.");
  demand(view.price.grossMinor);
  const frozen = freeze(found, facts, view, await letterheadOf(tx), dayIn(facts.terms.zone, shop.now));
  const hash = hashOf(frozen);
  await tx.quoteRevision.update({
    where: { id },
    data: {
      choices: [...view.choice.chosen],
      frozen: frozen as unknown as Prisma.InputJsonObject,
      hash,
      frozenAt: shop.now,
      ...figures(view),
    },
    select: { id: true },
  });
  const { grossMinor } = view.price;
  const quote = await tx.quote.update({
    where: { id: quoteId },
    data: {
      state: "accepted",
      answeredAt: shop.now,
      grossMinor,
      minutes: view.plan.minutes,
      version: { increment: 1 },
    },
    select: {
      bikeId: true,
      customerId: true,
      title: true,
      searchKey: true,
      variationOf: { select: { id: true, number: true } },
    },
  });
  const { saidBy, agent } = work;
  await tx.acceptance.create({
    data: { revisionId: id, typedName: saidBy, acknowledgements: [], shownHash: hash, agent, at: shop.now },
    select: { id: true },
  });
  return { quoteId, ...(await beginJob(tx, shop, { revisionId: id, ...quote, frozen })) };
}
