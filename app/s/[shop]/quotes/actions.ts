"use server";
import { acceptForCustomer } from "@/lib/data/acceptance";
import { declineQuote, replaceQuote, reviseQuote } from "@/lib/data/quotes/answer";
import { renewLink, sendQuote } from "@/lib/data/quotes/send";
import { chooseOptions, createQuote, setConditions } from "@/lib/data/quotes/write";
import { action } from "@/lib/gate/action";
import { publicUrl } from "@/lib/gate/origin";
import {
  AcceptForCustomerSchema,
  ChooseOptionsSchema,
  CreateQuoteSchema,
  DeclineQuoteSchema,
  QuoteVersionSchema,
  ReplaceQuoteSchema,
  SetConditionsSchema,
} from "@/lib/schemas/quotes";

export const startQuote = action("quote.write", CreateQuoteSchema, async (shop, input, { key }) => {
  const id = await createQuote(shop, { ...input, key });
  return { to: `/s/${shop.slug}/quotes/${id}`, toast: "Quote started." };
});

export const tickOptions = action("quote.write", ChooseOptionsSchema, async (shop, input) => {
  await chooseOptions(shop, input);
  return {};
});

export const saveConditions = action("quote.write", SetConditionsSchema, async (shop, input) => {
  await setConditions(shop, input);
  return { toast: "Conditions saved; settings computed again." };
});

export const sendForYes = action("quote.send", QuoteVersionSchema, async (shop, input, { key }) => {
  const { link } = await sendQuote(shop, { ...input, key, origin: publicUrl().origin });
  return { toast: "Sent.", ...(link ? { shown: { link } } : {}) };
});

export const makeNewLink = action("quote.send", QuoteVersionSchema, async (shop, input, { key }) => {
  const { link } = await renewLink(shop, { ...input, key, origin: publicUrl().origin });
  return { toast: "New link made; the one before no longer opens.", ...(link ? { shown: { link } } : {}) };
});

export const revise = action("quote.write", QuoteVersionSchema, async (shop, input, { key }) => {
  await reviseQuote(shop, { ...input, key });
  return { toast: "A new revision to work on. The sent one is kept; its link no longer opens." };
});

export const decline = action("quote.write", DeclineQuoteSchema, async (shop, input) => {
  await declineQuote(shop, input);
  return { toast: "Written down as declined." };
});

export const replace = action("quote.write", ReplaceQuoteSchema, async (shop, input, { key }) => {
  const id = await replaceQuote(shop, { ...input, key });
  return { to: `/s/${shop.slug}/quotes/${id}`, toast: "A new quote in its place." };
});

export const acceptByDesk = action("quote.write", AcceptForCustomerSchema, async (shop, input, { key }) => {
  const made = await acceptForCustomer(shop, { ...input, key });
  const short = made.short.map((part) => {
    const who = part.heldBy.map((h) => `job ${h.jobNumber}`).join(", ");
    return `${part.name} is short${who ? `: promised to ${who}` : ""}`;
  });
  return {
    to: `/s/${shop.slug}/jobs/${made.jobId}`,
    toast: [`Job ${made.jobNumber} made.`, ...short].join(" "),
  };
});
