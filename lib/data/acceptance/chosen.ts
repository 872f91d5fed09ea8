import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { hashOf } from "../common/hash";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import type { WorkRow } from "../packages/works";
import { sameWorks } from "../quotes/works";
import type { Accepted } from "./job";

/** What a list says of an accepted quote. */
export function listed({ revision, grossMinor, minutes }: FrozenQuote) {
  return { revisionNumber: revision, grossMinor, minutes };
}

interface Sent {
  readonly id: number;
  readonly number: number;
  readonly works: readonly WorkRow[];
  readonly conditions: Prisma.JsonValue;
  readonly terms: Prisma.JsonValue;
  readonly quote: { readonly id: number };
}

/** The revision that the customer made by choosing an alternative or adding extras: frozen at once, and what the customer's link shows from now on. */
export async function addChosenRevision(
  tx: ShopTx,
  shop: ShopHandle,
  sent: Sent,
  frozen: FrozenQuote,
): Promise<number> {
  const { id } = await tx.quoteRevision.create({
    data: {
      quoteId: sent.quote.id,
      number: frozen.revision,
      works: sameWorks(sent.works),
      choices: frozen.options.map((o) => o.key),
      conditions: sent.conditions ?? {},
      ...(sent.terms === null ? {} : { terms: sent.terms }),
      frozen: frozen as unknown as Prisma.InputJsonObject,
      hash: hashOf(frozen),
      frozenAt: shop.now,
      netMinor: frozen.netMinor,
      taxMinor: frozen.taxMinor,
      grossMinor: frozen.grossMinor,
      depositMinor: frozen.depositMinor,
      minutes: frozen.minutes,
      createdAt: shop.now,
    },
    select: { id: true },
  });
  await tx.customerLink.updateMany({
    where: { revisionId: sent.id, purpose: "quote" },
    data: { revisionId: id },
  });
  return id;
}

/** The answer to a yes that was said before in an alternative or with extras, when it is said again of the revision that was sent. */
export async function acceptedAsChosen(
  tx: ShopTx,
  { number, quote }: { number: number; quote: { id: number; variationOf: Named | null } },
): Promise<Accepted | null> {
  const next = await tx.quoteRevision.findUnique({
    where: { quoteId_number: { quoteId: quote.id, number: number + 1 } },
    select: {
      frozen: true,
      acceptance: { select: { id: true } },
      job: { select: { id: true, number: true } },
    },
  });
  const frozen = next?.frozen ? storedQuote(next.frozen) : null;
  const chosen = frozen?.madeFrom === number || (frozen?.taken ?? []).length > 0;
  const job = next?.job ?? quote.variationOf;
  if (!next?.acceptance || !chosen || !job) return null;
  return { jobId: job.id, jobNumber: job.number, short: [], again: true };
}

interface Named {
  readonly id: number;
  readonly number: string;
}
