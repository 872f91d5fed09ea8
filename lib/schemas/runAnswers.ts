import { z } from "zod";
import { RUN_ANSWERS, type RunAnswer } from "@/lib/domain/tuning/runAnswers";
import { formId } from "./ids";

export const RunAnswerSchema = z
  .object({
    answer: z.enum(RUN_ANSWERS, "Choose what fits best."),
    words: z.string().trim().max(600, "Keep this within 600 characters.").default(""),
  })
  .refine(({ answer, words }) => answer !== "other" || words.length > 1, {
    path: ["words"],
    message: "Say in a few words what it is.",
  });

/** The answer of a letter's link; undefined where the address names none. */
export const RunAnswerAsked = z.enum(RUN_ANSWERS).optional().catch(undefined);

/** The newest answer of a job that whoever looks has seen: it and all before it. */
export const LookedAtSchema = z.object({ jobId: formId(), upToId: formId() });

/** An answer as the shop reads it. */
const RUN_ANSWER_WORDS: Readonly<Record<RunAnswer, string>> = {
  runsWell: "It runs well",
  startsBadly: "It starts badly",
  hesitates: "It hesitates",
  tooHot: "It gets too hot",
  muchFuel: "It uses much fuel",
  other: "Something else",
};

export const runAnswerWord = (answer: string): string =>
  RUN_ANSWER_WORDS[answer as RunAnswer] ?? RUN_ANSWER_WORDS.other;
