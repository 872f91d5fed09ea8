import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { formatMoney } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import type { CallOn, Remind } from "@/lib/schemas/quoteLife";
import { wordsIn } from "@/lib/words/words";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import { encloseQuoteIn } from "../mail/attachments";
import { conflict, demandQuote } from "./rows";
import { makeLink } from "./send";

/**
 * A reminder of a quote that is out: a mail in the mail queue with a further link, since of the first only its hash is kept.
 * Links made before go on working. `origin` is this server's public address.
 */
export async function remindQuote(
  shop: ShopHandle,
  input: Remind & { origin: string; key?: string | undefined },
): Promise<{ to: string }> {
  const to = await shop.write((tx) =>
    once(tx, shop, "reminded of a quote", input, async () => {
      const { quote, revision } = await demandQuote(tx, input.id);
      const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
      if (quote.state !== "sent" || revision.frozen === null)
        throw new Refusal(
          `Quote ${quote.number} is ${quote.state}.`,
          "Only a sent quote can be reminded of.",
        );
      if (quote.validUntil < dayIn(zone, shop.now))
        throw new Refusal(`Quote ${quote.number} has run out.`, "Revise it and send it again.");
      if (!quote.customer.email)
        throw new Refusal(
          `No mail address of ${quote.customer.name} is known.`,
          quote.customer.phone ? `Call ${quote.customer.phone}.` : "Enter one with the customer.",
        );
      await demandOne(
        tx.quote.updateMany({
          where: { id: quote.id, state: "sent", version: input.version },
          data: { remindedAt: shop.now, version: { increment: 1 } },
        }),
        () => conflict(tx, quote.id, quote.number),
      );
      await mailReminder(tx, shop, {
        to: quote.customer.email,
        revisionId: revision.id,
        frozen: storedQuote(revision.frozen),
        zone,
        origin: input.origin,
        words: input.words,
      });
      await audit(tx, shop, "reminded of", "quote", quote.id, { number: quote.number });
      return quote.customer.email;
    }),
  );
  return { to };
}

/** Puts the reminder with its further link into the mail queue. */
export async function mailReminder(
  tx: ShopTx,
  shop: ShopHandle,
  of: {
    to: string;
    revisionId: number;
    frozen: FrozenQuote;
    zone: string;
    origin: string;
    words: string;
  },
): Promise<void> {
  const { to, frozen, words } = of;
  const link = await makeLink(tx, shop, of);
  const total = formatMoney(frozen.grossMinor, frozen.currency, frozen.locale);
  const say = wordsIn(frozen.locale);
  const number = String(frozen.number);
  const text = [
    say("mails.hello", { name: frozen.customer.name }),
    "",
    say("mails.reminder", { number, bike: frozen.bike.name, title: frozen.title, total }),
    ...(words ? ["", words] : []),
    "",
    say("mails.reminderRead"),
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
      subject: say("mails.reminderSubject", { number }),
      text: text.join("\n").trim(),
      createdAt: shop.now,
    },
    select: { id: true },
  });
  await encloseQuoteIn(tx, mail.id, frozen);
}

/** The day on which the shop means to call about a quote; blank takes it off. */
export async function setCallOn(shop: ShopHandle, input: CallOn): Promise<void> {
  await shop.write(async (tx) => {
    const { quote } = await demandQuote(tx, input.id);
    await demandOne(
      tx.quote.updateMany({
        where: { id: quote.id, version: input.version },
        data: { callOn: input.callOn || null, version: { increment: 1 } },
      }),
      () => conflict(tx, quote.id, quote.number),
    );
    await audit(tx, shop, "set the day to call about", "quote", quote.id, { callOn: input.callOn });
  });
}
