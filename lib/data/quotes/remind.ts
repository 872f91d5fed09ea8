import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import type { CallOn, Remind } from "@/lib/schemas/quoteLife";
import { type FrozenQuote, storedQuote } from "../documents/quote";
import { type Addressee, demandWritten, type Written, withheldFrom } from "../mail/letters";
import { mailReminderIn } from "./letters";
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
      const written = await mailReminder(tx, shop, {
        quoteId: quote.id,
        to: quote.customer,
        revisionId: revision.id,
        frozen: storedQuote(revision.frozen),
        zone,
        origin: input.origin,
        words: input.words,
      });
      demandWritten(written, quote.customer);
      await audit(tx, shop, "reminded of", "quote", quote.id, { number: quote.number });
      return quote.customer.email;
    }),
  );
  return { to };
}

/** Puts the reminder with its further link into the mail queue; no link is made where no letter goes. */
export async function mailReminder(
  tx: ShopTx,
  shop: ShopHandle,
  of: {
    quoteId: number;
    to: Addressee;
    revisionId: number;
    frozen: FrozenQuote;
    zone: string;
    origin: string;
    words: string;
  },
): Promise<Written> {
  const withheld = await withheldFrom(tx, "reminder", of.to);
  if (withheld) return { withheld };
  return mailReminderIn(tx, shop, { ...of, link: await makeLink(tx, shop, of) });
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
