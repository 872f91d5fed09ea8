"use server";
import { headers } from "next/headers";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { jobOfLink } from "@/lib/data/papers/ofJob";
import { declineByLink } from "@/lib/data/quotes/answer";
import { askByLink } from "@/lib/data/quotes/questions";
import { answerRuns } from "@/lib/data/runAnswers/answer";
import { Refusal } from "@/lib/domain/refusal";
import { customerAction, type OpenedLink } from "@/lib/gate/customer";
import { AskSchema } from "@/lib/schemas/quoteLife";
import { CustomerAcceptSchema, CustomerDeclineSchema } from "@/lib/schemas/quotes";
import { RunAnswerSchema } from "@/lib/schemas/runAnswers";
import { languageOf } from "@/lib/words/language";
import { wordsIn } from "@/lib/words/words";

function revisionOf(link: OpenedLink): number {
  if (link.purpose === "quote" && link.revisionId !== null) return link.revisionId;
  throw new Refusal("This link is not for a quote.", "Ask the shop for the right one.", {}, "missing");
}

export const sayYes = customerAction(CustomerAcceptSchema, async (link, input, { key }) => {
  const agent = (await headers()).get("user-agent") ?? "";
  await acceptQuote(link.shop, {
    ...input,
    revisionId: revisionOf(link),
    agent,
    language: languageOf(link.locale),
    key,
  });
  return { toast: wordsIn(link.locale)("answering.accepted") };
});

export const ask = customerAction(AskSchema, async (link, input, { key }) => {
  await askByLink(link.shop, { revisionId: revisionOf(link), text: input.text, key });
  return { toast: wordsIn(link.locale)("answering.asked") };
});

export const sayNo = customerAction(CustomerDeclineSchema, async (link, input) => {
  await declineByLink(link.shop, { revisionId: revisionOf(link), reason: input.reason });
  return { toast: wordsIn(link.locale)("answering.declined") };
});

export const sayHowItRuns = customerAction(RunAnswerSchema, async (link, input, { key }) => {
  const jobId = await jobOfLink(link.shop, link);
  if (jobId === null)
    throw new Refusal("This link is not for a job.", "Ask the shop for the right one.", {}, "missing");
  await answerRuns(link.shop, { ...input, jobId, key });
  return { toast: wordsIn(link.locale)("runsPage.thanks") };
});
