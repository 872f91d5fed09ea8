import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { newToken } from "@/lib/db/token";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, endOfDay } from "@/lib/domain/schedule/days";
import type { QuoteVersion } from "@/lib/schemas/quotes";
import { hashOf } from "../common/hash";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import type { Written } from "../mail/letters";
import { didHere } from "./didHere";
import { extraStops } from "./extraStops";
import { freeze, letterheadOf } from "./freeze";
import { keptFacts } from "./keptFacts";
import { demandAllowed, everyChoice, storedBelowMargin } from "./leastMargin";
import { mailQuoteIn } from "./letters";
import { keptAlternatives } from "./offered";
import { conflict, demandQuote, factsOf, notADraft } from "./rows";
import { spokenTo, titled } from "./spoken";
import { offerOf } from "./toSend";
import { figures } from "./write";

export interface Sent {
  readonly revisionId: number;
  /** The customer's link, to be shown once; null when this request had been carried out before. */
  readonly link: string | null;
  /** Whether a letter brings it, and why not; null as above, and where only a link was made. */
  readonly letter: Written | null;
}

type Sending = QuoteVersion & { readonly origin: string; readonly key?: string | undefined };
/** Mails of kept alternatives that the customer may choose from. */
type WithAlternatives = Sending & { readonly alternatives?: readonly string[] };

/**
 * Freezes the draft revision with everything it prints, makes the customer's link and puts a mail in the mail queue.
 * Only the link's hash is kept. `origin` is this server's public address.
 */
export async function sendQuote(shop: ShopHandle, input: WithAlternatives): Promise<Sent> {
  let link: string | null = null;
  let letter: Written | null = null;
  const revisionId = await shop.write((tx) => {
    link = letter = null;
    return once(tx, shop, "sent a quote", input, async () => {
      const found = await demandQuote(tx, input.id);
      const { quote, revision } = found;
      if (quote.state !== "draft") throw notADraft(quote.number, quote.state);
      if (quote.version !== input.version) throw await conflict(tx, quote.id, quote.number);
      const { facts, say } = await spokenTo(tx, await factsOf(tx, found, shop.now), quote.customer.language);
      const today = dayIn(facts.terms.zone, shop.now);
      if (quote.validUntil < today)
        throw new Refusal(`Quote ${quote.number} was valid until ${quote.validUntil}.`, "Revise it first.");
      const view = computeQuote(facts);
      if (!view.sendable)
        throw new Refusal(
          `Quote ${quote.number} cannot be sent: ${view.warnings.find((w) => w.stops)?.message ?? "nothing is chosen."}`,
          "Settle this first.",
        );
      const said = storedBelowMargin(revision.belowMargin);
      const [stop] = await extraStops(facts, view, said);
      if (stop) throw new Refusal(`Quote ${quote.number} cannot be sent: ${stop.message}`, stop.remedy);
      const kept = await keptAlternatives(tx, quote.id);
      const offered = await offerOf(facts, view, kept, input.alternatives ?? []);
      demandAllowed(quote.number, everyChoice(facts, view, offered), said);
      const frozen = freeze(titled(found, say), facts, view, await letterheadOf(tx, say), today, {
        ...offered,
        ...(await didHere(tx, found)),
      });
      await tx.quoteRevision.update({
        where: { id: revision.id },
        data: {
          choices: [...view.choice.chosen],
          frozen: frozen as unknown as Prisma.InputJsonObject,
          hash: hashOf(frozen),
          frozenAt: shop.now,
          ...(offered.extras || offered.alternatives ? { facts: keptFacts(facts) } : {}),
          ...figures(view),
        },
        select: { id: true },
      });
      await demandOne(
        tx.quote.updateMany({
          where: { id: quote.id, state: "draft", version: input.version },
          data: {
            state: "sent",
            sentAt: shop.now,
            remindedAt: null,
            grossMinor: view.price.grossMinor,
            minutes: view.plan.minutes,
            version: { increment: 1 },
          },
        }),
        () => conflict(tx, quote.id, quote.number),
      );
      link = await makeLink(tx, shop, {
        revisionId: revision.id,
        frozen,
        zone: facts.terms.zone,
        origin: input.origin,
      });
      letter = await mailQuoteIn(tx, shop, {
        quoteId: quote.id,
        to: quote.customer,
        frozen,
        link,
        job: quote.variationOf?.number ?? null,
      });
      await audit(tx, shop, "sent", "quote", quote.id, { number: quote.number, revision: revision.number });
      return revision.id;
    });
  });
  return { revisionId, link, letter };
}

/** A fresh link for a quote that is out; the ones before it stop working. */
export async function renewLink(shop: ShopHandle, input: Sending): Promise<Sent> {
  let link: string | null = null;
  const revisionId = await shop.write((tx) => {
    link = null;
    return once(tx, shop, "made a new link", input, async () => {
      const { quote, revision } = await demandQuote(tx, input.id);
      if (quote.state !== "sent")
        throw new Refusal(`Quote ${quote.number} is ${quote.state}.`, "Only a sent quote has a link.");
      if (quote.version !== input.version) throw await conflict(tx, quote.id, quote.number);
      const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
      if (quote.validUntil < dayIn(zone, shop.now))
        throw new Refusal(
          `Quote ${quote.number} was valid until ${quote.validUntil}.`,
          "Revise it and send it again.",
        );
      await revokeLinks(tx, shop, revision.id);
      const frozen = storedQuote(revision.frozen);
      link = await makeLink(tx, shop, { revisionId: revision.id, frozen, zone, origin: input.origin });
      await audit(tx, shop, "made a new link for", "quote", quote.id, { number: quote.number });
      return revision.id;
    });
  });
  return { revisionId, link, letter: null };
}

export async function revokeLinks(tx: ShopTx, shop: ShopHandle, revisionId: number): Promise<void> {
  await tx.customerLink.updateMany({
    where: { revisionId, purpose: "quote", revokedAt: null },
    data: { revokedAt: shop.now },
  });
}

export async function makeLink(
  tx: ShopTx,
  shop: ShopHandle,
  of: { revisionId: number; frozen: FrozenQuote; zone: string; origin: string },
): Promise<string> {
  const token = newToken();
  await tx.customerLink.create({
    data: {
      purpose: "quote",
      tokenHash: token.hash,
      revisionId: of.revisionId,
      createdAt: shop.now,
      expiresAt: endOfDay(of.frozen.validUntil, of.zone),
    },
    select: { id: true },
  });
  return `${of.origin}/c/${shop.slug}/${token.text}`;
}
