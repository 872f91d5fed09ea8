import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, daysAfter } from "@/lib/domain/schedule/days";
import type { DeclineQuote, QuoteVersion, ReplaceQuote } from "@/lib/schemas/quotes";
import { SaidRefusal } from "@/lib/words/refusal";
import { choicesOf, conflict, demandQuote, type FoundQuote, factsOf } from "./rows";
import { revokeLinks } from "./send";
import { asKeptNow } from "./switchTax";
import { sameWorks } from "./works";
import { answerFindingIn, createIn, figures } from "./write";

/**
 * A new draft revision from one that was sent, declined or ran out: same package revision, ticks and conditions, today's
 * stock and prices. The frozen revision stays as it was; its link stops working.
 */
export async function reviseQuote(
  shop: ShopHandle,
  input: QuoteVersion & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "began a new revision", input, async () => {
      const found = await demandQuote(tx, input.id);
      const { quote } = found;
      if (!["sent", "declined", "expired"].includes(quote.state))
        throw new Refusal(
          `Quote ${quote.number} is ${quote.state}.`,
          "Only a quote that was sent can be revised.",
          {},
          "conflict",
        );
      const terms = await tx.settings.findUniqueOrThrow({
        where: { id: 1 },
        select: { zone: true, quoteValidDays: true },
      });
      const revision = await asKeptNow(tx, found.revision);
      const view = computeQuote(await factsOf(tx, { quote, revision }, shop.now));
      const number = revision.number + 1;
      await moveOn(tx, found, input.version, {
        state: "draft",
        revisionNumber: number,
        validUntil: daysAfter(dayIn(terms.zone, shop.now), terms.quoteValidDays),
        answeredAt: null,
        declineReason: "",
        grossMinor: view.price.grossMinor,
        minutes: view.plan.minutes,
      });
      await tx.quoteRevision.create({
        data: {
          quoteId: quote.id,
          number,
          works: sameWorks(revision.works),
          choices: choicesOf(revision.choices),
          conditions: revision.conditions ?? {},
          ...(revision.terms === null ? {} : { terms: revision.terms }),
          createdAt: shop.now,
          ...figures(view),
        },
        select: { id: true },
      });
      if (quote.state !== "sent") await reopenFinding(tx, quote.findingId);
      await revokeLinks(tx, shop, revision.id);
      await audit(tx, shop, "revised", "quote", quote.id, { number: quote.number, revision: number });
      return quote.id;
    }),
  );
}

async function reopenFinding(tx: ShopTx, id: number | null): Promise<void> {
  if (id === null) return;
  await tx.finding.updateMany({
    where: { id, state: "open" },
    data: { state: "quoted", version: { increment: 1 } },
  });
}

/** The customer's no, told to the shop. */
export async function declineQuote(shop: ShopHandle, input: DeclineQuote): Promise<void> {
  await shop.write(async (tx) => {
    const found = await demandQuote(tx, input.id);
    await declineIn(tx, shop, found, input.version, input.reason);
    await revokeLinks(tx, shop, found.revision.id);
  });
}

/** The customer's no by link, which stays open to say so. Saying it twice changes nothing. */
export async function declineByLink(
  shop: ShopHandle,
  input: { revisionId: number; reason: string },
): Promise<void> {
  await shop.write(async (tx) => {
    const row = await tx.quoteRevision.findUniqueOrThrow({
      where: { id: input.revisionId },
      select: { quoteId: true, number: true },
    });
    const found = await demandQuote(tx, row.quoteId);
    if (found.quote.state === "declined" && found.revision.number === row.number) return;
    if (found.revision.number !== row.number)
      throw new Refusal("This quote was changed since.", "Ask the shop for the new one.", {}, "conflict");
    await declineIn(tx, shop, found, found.quote.version, input.reason);
  });
}

async function declineIn(
  tx: ShopTx,
  shop: ShopHandle,
  found: FoundQuote,
  version: number,
  reason: string,
): Promise<void> {
  const { quote } = found;
  if (quote.state !== "sent")
    throw new SaidRefusal("quoteState", { number: quote.number, state: quote.state }, "onlySent", "conflict");
  await moveOn(tx, found, version, { state: "declined", answeredAt: shop.now, declineReason: reason });
  await answerFindingIn(tx, quote.findingId, "open");
  await audit(tx, shop, "declined", "quote", quote.id, { number: quote.number, reason });
}

/** A new quote from another package for the same bike in this one's place; answers the new quote's id. */
export async function replaceQuote(
  shop: ShopHandle,
  input: ReplaceQuote & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "replaced a quote", input, async () => {
      const found = await demandQuote(tx, input.id);
      const { quote, revision } = found;
      if (quote.state === "accepted" || quote.state === "replaced")
        throw new Refusal(
          `Quote ${quote.number} is ${quote.state}.`,
          "Make a new quote from the bike.",
          {},
          "conflict",
        );
      await moveOn(tx, found, input.version, { state: "replaced", answeredAt: shop.now });
      await revokeLinks(tx, shop, revision.id);
      await answerFindingIn(tx, quote.findingId, "open");
      const id = await createIn(tx, shop, {
        bikeId: quote.bike.id,
        packageId: input.packageId,
        variationOfId: quote.variationOf?.id,
        findingId: quote.findingId ?? undefined,
      });
      await audit(tx, shop, "replaced", "quote", quote.id, { number: quote.number, by: id });
      return id;
    }),
  );
}

async function moveOn(
  tx: ShopTx,
  { quote }: FoundQuote,
  version: number,
  data: Parameters<ShopTx["quote"]["updateMany"]>[0]["data"],
): Promise<void> {
  await demandOne(
    tx.quote.updateMany({
      where: { id: quote.id, state: quote.state, version },
      data: { ...data, version: { increment: 1 } },
    }),
    () => conflict(tx, quote.id, quote.number),
  );
}
