import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { heardFrom, type RunAnswer } from "@/lib/domain/tuning/runAnswers";
import { keepHeardIn } from "../rides/felt";

/** More answers that nobody looked at are a conversation for the phone. */
const MOST_UNSEEN = 5;

interface Answered {
  readonly jobId: number;
  readonly answer: RunAnswer;
  readonly words: string;
  readonly key?: string | undefined;
}

const JOB = {
  id: true,
  number: true,
  bikeId: true,
  finishedAt: true,
  state: true,
  runAnswers: {
    select: { id: true, answer: true, words: true, calibrationId: true, seenAt: true },
    orderBy: { id: "desc" },
    take: MOST_UNSEEN,
  },
} as const;

/**
 * Keeps what a customer answers to how their bike runs after a job. Of several the newest holds: what an earlier one counted for is
 * taken out, and its row stays. The same answer again is the same answer.
 */
export async function answerRuns(shop: ShopHandle, input: Answered): Promise<number> {
  return shop.write((tx) => once(tx, shop, "answered how it runs", input, () => answerIn(tx, shop, input)));
}

async function answerIn(tx: ShopTx, shop: ShopHandle, { jobId, answer, words }: Answered): Promise<number> {
  const job = await tx.job.findUniqueOrThrow({ where: { id: jobId }, select: JOB });
  if (job.finishedAt === null || job.state === "cancelled")
    throw new Refusal("The work on this bike is not finished.", "Call the shop.", {}, "conflict");
  const [before] = job.runAnswers;
  if (before && before.answer === answer && before.words === words) return before.id;
  if (job.runAnswers.filter((one) => one.seenAt === null).length >= MOST_UNSEEN)
    throw new Refusal("The shop has not looked at your earlier answers yet.", "Call the shop.");
  if (before && before.calibrationId !== null)
    await tx.lessonVerdict.create({
      data: {
        calibrationId: before.calibrationId,
        act: "takeOut",
        why: "The customer answered again.",
        at: shop.now,
        staffId: null,
      },
      select: { id: true },
    });
  const { id } = await tx.runAnswer.create({
    data: {
      bikeId: job.bikeId,
      jobId,
      answer,
      words,
      at: shop.now,
      calibrationId: await heardIn(tx, shop, { ...job, finishedAt: job.finishedAt }, answer),
    },
    select: { id: true },
  });
  await audit(tx, shop, "answered how it runs", "job", jobId, { answer });
  return id;
}

/** The evidence of an answer; null where it has none, or where the bike was worked on since, so that it may speak of other settings. */
async function heardIn(
  tx: ShopTx,
  shop: ShopHandle,
  job: { id: number; number: string; bikeId: number; finishedAt: Date },
  answer: RunAnswer,
): Promise<number | null> {
  const heard = heardFrom(answer);
  if (!heard) return null;
  const later = await tx.job.findFirst({
    where: { bikeId: job.bikeId, id: { not: job.id }, startedAt: { gt: job.finishedAt } },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  return later ? null : keepHeardIn(tx, shop, job, heard, `Job ${job.number}, answered by the customer.`);
}
