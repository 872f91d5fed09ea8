import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { newToken } from "@/lib/db/token";
import { formatMoney } from "@/lib/domain/money/format";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, endOfDay } from "@/lib/domain/schedule/days";
import type { QuoteVersion } from "@/lib/schemas/quotes";
import { wordsIn } from "@/lib/words/words";
import { hashOf } from "../common/hash";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import { encloseQuoteIn } from "../mail/attachments";
import { extraStops } from "./extraStops";
import { freeze, letterheadOf } from "./freeze";
import { keptFacts } from "./keptFacts";
import { demandAllowed, everyChoice, storedBelowMargin } from "./leastMargin";
import { keptAlternatives } from "./offered";
import { conflict, demandQuote, factsOf, notADraft } from "./rows";
import { offerOf, spokenTo } from "./toSend";
import { figures } from "./write";

export interface Sent {
  readonly revisionId: number;
  /** The customer's link, to be shown once; null when this request had been carried out before. */
  readonly link: string | null;
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
  const revisionId = await shop.write((tx) => {
    link = null;
    return once(tx, shop, "sent a quote", input, async () => {
      const found = await demandQuote(tx, input.id);
      const { quote, revision } = found;
      if (quote.state !== "draft") throw notADraft(quote.number, quote.state);
      if (quote.version !== input.version) throw await conflict(tx, quote.id, quote.number);
      const facts = spokenTo(await factsOf(tx, found, shop.now), quote.customer.language);
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
      const frozen = freeze(found, facts, view, await letterheadOf(tx), today, offered);
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
      await mailLink(tx, shop, quote.customer.email, frozen, link);
      await audit(tx, shop, "sent", "quote", quote.id, { number: quote.number, revision: revision.number });
      return revision.id;
    });
  });
  return { revisionId, link };
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
  return { revisionId, link };
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

async function mailLink(
  tx: ShopTx,
  shop: ShopHandle,
  to: string,
  frozen: FrozenQuote,
  link: string,
): Promise<void> {
  if (!to) return;
  const total = formatMoney(frozen.grossMinor, frozen.currency, frozen.locale);
  const say = wordsIn(frozen.locale);
  const { number, title } = frozen;
  const text = [
    say("mails.hello", { name: frozen.customer.name }),
    "",
    say("mails.quote", { number: String(number), bike: frozen.bike.name, title, total }),
    ...choicesTold(frozen),
    "",
    say("mails.quoteRead"),
    link,
    "",
    say("mails.validUntil", { day: new Date(`${frozen.validUntil}T00:00:00Z`) }),
    "",
    frozen.shop.name,
    frozen.shop.phone,
  ];
  const mail = await tx.mail.create({
    data: {
      to,
      subject: say("mails.quoteSubject", { number: String(number), title }),
      text: text.join("\n").trim(),
      createdAt: shop.now,
    },
    select: { id: true },
  });
  await encloseQuoteIn(tx, mail.id, frozen);
}

/** The ways to choose from, with what each comes to. */
function choicesTold({ alternatives = [], currency, locale }: FrozenQuote): string[] {
  if (alternatives.length === 0) return [];
  const say = wordsIn(locale);
  const named = alternatives.map((w) => {
    const name = [w.letter, w.name].filter(Boolean).join(", ") || say("quotePage.asQuoted");
    return `- ${name}: ${formatMoney(w.grossMinor, currency, locale)}`;
  });
  return ["", say("mails.choose"), ...named];
}
