"use server";
import { after } from "next/server";
import { mailInvoice } from "@/lib/data/invoices/links";
import { mailQueueOf } from "@/lib/data/mail/queue";
import { invoiceSale } from "@/lib/data/sales/fullInvoice";
import { sell } from "@/lib/data/sales/sell";
import { takeBack } from "@/lib/data/sales/takeBack";
import { Refusal } from "@/lib/domain/refusal";
import { action } from "@/lib/gate/action";
import { publicUrl } from "@/lib/gate/origin";
import { mailer } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";
import { typedAlso } from "@/lib/schemas/payments";
import { FullInvoiceSchema, MailReceiptSchema, SellSchema, TakeBackSchema } from "@/lib/schemas/sales";
import { typedAmount } from "@/lib/schemas/typedAmount";
import { printForMail } from "@/lib/workers/mailPrints";

const salePage = (slug: string, id: number) => `/s/${slug}/counter/${id}`;

export const sellParts = action("sale.write", SellSchema, async (shop, input, call) => {
  const { given, alsoMethod, alsoAmount, ...sale } = input;
  const also = typedAlso({ alsoMethod, alsoAmount }, shop.settings);
  const givenMinor = sale.method === "cash" && given ? givenIn(given, shop.settings) : null;
  const id = await sell(shop, { ...sale, also, givenMinor, key: call.key });
  return { to: salePage(shop.slug, id), toast: "Sold." };
});

export const takeSaleBack = action("sale.write", TakeBackSchema, async (shop, input, call) => {
  const id = await takeBack(shop, { ...input, key: call.key });
  return { to: salePage(shop.slug, id), toast: "Taken back." };
});

export const makeFullInvoice = action("sale.write", FullInvoiceSchema, async (shop, input, call) => {
  const id = await invoiceSale(shop, { ...input, key: call.key });
  return { to: salePage(shop.slug, id), toast: "The full invoice is made." };
});

export const mailReceipt = action("sale.write", MailReceiptSchema, async (shop, input, call) => {
  await mailInvoice(shop, { id: input.id, to: input.to, origin: publicUrl().origin, key: call.key });
  after(() =>
    sendDue(
      mailQueueOf(shop, () => new Date()),
      mailer(),
      (enclosed) => printForMail(shop, enclosed),
    ),
  );
  return { toast: "It is in the outbox." };
});

/** What the customer gave, in minor units; what is wrong with it stands at its field. */
function givenIn(text: string, settings: { currency: string; locale: string }): number {
  try {
    return typedAmount(text, settings);
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    throw new Refusal(cause.message, cause.remedy, { given: cause.message });
  }
}
