"use server";
import { acceptForCustomer } from "@/lib/data/acceptance/accept";
import { dropAlternative, keepAlternative, takeAlternative } from "@/lib/data/quotes/alternatives";
import { declineQuote, replaceQuote, reviseQuote } from "@/lib/data/quotes/answer";
import { allowBelowMargin } from "@/lib/data/quotes/leastMargin";
import { answerQuestion } from "@/lib/data/quotes/questions";
import { remindQuote, setCallOn } from "@/lib/data/quotes/remind";
import { removeDraftQuote } from "@/lib/data/quotes/remove";
import { renewLink, sendQuote } from "@/lib/data/quotes/send";
import {
  addLine,
  discountLine,
  discountQuote,
  offerExtras,
  removeLine,
  savePriceBook,
  setDeposit,
  setValidUntil,
} from "@/lib/data/quotes/terms";
import { chooseOptions, createQuote, retitleQuote, setConditions } from "@/lib/data/quotes/write";
import { linkShown } from "@/lib/documents/linkCode";
import { action } from "@/lib/gate/action";
import { publicUrl } from "@/lib/gate/origin";
import { RemoveRecordSchema } from "@/lib/schemas/ids";
import { SetConditionsSchema } from "@/lib/schemas/quoteConditions";
import {
  AlternativeSchema,
  AnswerSchema,
  CallOnSchema,
  KeepAlternativeSchema,
  RemindSchema,
} from "@/lib/schemas/quoteLife";
import {
  AcceptForCustomerSchema,
  AllowMarginSchema,
  ChooseOptionsSchema,
  CreateQuoteSchema,
  DeclineQuoteSchema,
  QuoteVersionSchema,
  ReplaceQuoteSchema,
  RetitleQuoteSchema,
  SendQuoteSchema,
} from "@/lib/schemas/quotes";
import {
  AddQuoteLineSchema,
  DiscountSchema,
  ExtrasSchema,
  LineDiscountSchema,
  PriceBookSchema,
  QuoteDepositSchema,
  RemoveLineSchema,
  ValidUntilSchema,
} from "@/lib/schemas/quoteTerms";
import { screenOf } from "./[id]/shown/screen";

export const takeDraftOut = action("quote.write", RemoveRecordSchema, async (shop, input) => {
  await removeDraftQuote(shop, input);
  return { to: `/s/${shop.slug}/quotes`, toast: "Removed." };
});

export const writeLine = action(
  "quote.write",
  AddQuoteLineSchema,
  async (shop, input) => {
    await addLine(shop, input);
    return { toast: "Line added." };
  },
  "typed",
  screenOf,
);

export const takeLineOff = action(
  "quote.write",
  RemoveLineSchema,
  async (shop, input) => {
    await removeLine(shop, input);
    return { toast: "Line taken off." };
  },
  "typed",
  screenOf,
);

export const saveTitle = action(
  "quote.write",
  RetitleQuoteSchema,
  async (shop, input) => {
    await retitleQuote(shop, input);
    return { toast: "Title saved." };
  },
  "typed",
  screenOf,
);

export const saveLineDiscount = action(
  "quote.write",
  LineDiscountSchema,
  async (shop, input) => {
    await discountLine(shop, input);
    return { toast: input.percent > 0 ? "Discount on the line saved." : "Discount on the line taken off." };
  },
  "typed",
  screenOf,
);

export const saveDiscount = action(
  "quote.write",
  DiscountSchema,
  async (shop, input) => {
    await discountQuote(shop, input);
    return { toast: "Discount saved." };
  },
  "typed",
  screenOf,
);

export const saveDeposit = action(
  "quote.write",
  QuoteDepositSchema,
  async (shop, input) => {
    await setDeposit(shop, input);
    return { toast: "Deposit saved." };
  },
  "typed",
  screenOf,
);

export const saveValidUntil = action(
  "quote.write",
  ValidUntilSchema,
  async (shop, input) => {
    await setValidUntil(shop, input);
    return { toast: "Last day saved." };
  },
  "typed",
  screenOf,
);

export const saveExtras = action(
  "quote.write",
  ExtrasSchema,
  async (shop, input) => {
    await offerExtras(shop, input);
    return { toast: "Extras saved: the customer sees them when the quote is sent." };
  },
  "typed",
  screenOf,
);

export const saveBook = action("shop.write", PriceBookSchema, async (shop, input) => {
  await savePriceBook(shop, input);
  return { toast: "Price book saved." };
});

export const answer = action("quote.write", AnswerSchema, async (shop, input) => {
  const { mailed } = await answerQuestion(shop, input);
  return {
    toast: mailed ? "Answered; a mail is in the mail queue." : "Answered: it stands on the customer's page.",
  };
});

export const remind = action("quote.send", RemindSchema, async (shop, input, { key }) => {
  const { to } = await remindQuote(shop, { ...input, key, origin: publicUrl().origin });
  return { toast: `A reminder to ${to} is in the mail queue.` };
});

export const callOn = action("quote.write", CallOnSchema, async (shop, input) => {
  await setCallOn(shop, input);
  return { toast: input.callOn ? "It is on the list for that day." : "Taken off the list." };
});

export const keepAlternativeOf = action("quote.write", KeepAlternativeSchema, async (shop, input) => {
  await keepAlternative(shop, input);
  return { toast: `Kept as ${input.letter}.` };
});

export const takeAlternativeUp = action("quote.write", AlternativeSchema, async (shop, input) => {
  await takeAlternative(shop, input);
  return { to: `/s/${shop.slug}/quotes/${input.id}`, toast: `The quote stands as ${input.letter} now.` };
});

export const dropAlternativeOf = action("quote.write", AlternativeSchema, async (shop, input) => {
  await dropAlternative(shop, input);
  return { toast: `${input.letter} dropped.` };
});

export const startQuote = action("quote.write", CreateQuoteSchema, async (shop, input, { key }) => {
  const id = await createQuote(shop, { ...input, key });
  return { to: `/s/${shop.slug}/quotes/${id}`, toast: "Quote started." };
});

export const tickOptions = action(
  "quote.write",
  ChooseOptionsSchema,
  async (shop, input) => {
    await chooseOptions(shop, input);
    return {};
  },
  "typed",
  screenOf,
);

export const saveConditions = action(
  "quote.write",
  SetConditionsSchema,
  async (shop, input) => {
    await setConditions(shop, input);
    return { toast: "Conditions saved; settings computed again." };
  },
  "typed",
  screenOf,
);

export const allowMargin = action(
  "margin.override",
  AllowMarginSchema,
  async (shop, input, { key }) => {
    await allowBelowMargin(shop, { ...input, key });
    return { toast: "Allowed, with your reason." };
  },
  "typed",
  screenOf,
);

/** Sends a draft, or makes a new link to what was sent: one action, so that a page without scripts shows the link it hands back. */
export const sendForYes = action("quote.send", SendQuoteSchema, async (shop, input, { key }) => {
  const { anew, ...asked } = input;
  const call = { ...asked, key, origin: publicUrl().origin };
  if (anew) {
    const { link } = await renewLink(shop, call);
    return {
      toast: "New link made; the one before no longer opens.",
      ...(link ? { shown: linkShown(link) } : {}),
    };
  }
  const { link, letter } = await sendQuote(shop, call);
  const mailed = letter !== null && "mailId" in letter ? { mailed: "yes" } : {};
  return { toast: "Sent.", ...(link ? { shown: { ...linkShown(link), ...mailed } } : {}) };
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
    const who = part.reservedBy.map((h) => `job ${h.jobNumber}`).join(", ");
    return `${part.name} is short${who ? `: reserved for ${who}` : ""}`;
  });
  return {
    to: `/s/${shop.slug}/jobs/${made.jobId}`,
    toast: [`Job ${made.jobNumber} made.`, ...short].join(" "),
  };
});
