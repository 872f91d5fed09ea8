import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { getBike } from "@/lib/data/bikes/bikes";
import { listLessons } from "@/lib/data/bikes/lessons";
import { howRunsRound } from "@/lib/data/followUps/howRuns";
import { getJob } from "@/lib/data/jobs/get";
import { switchLetter } from "@/lib/data/mail/letterTexts";
import { answerRuns } from "@/lib/data/runAnswers/answer";
import { askedRuns } from "@/lib/data/runAnswers/asked";
import { lookAtAnswers } from "@/lib/data/runAnswers/look";
import { getToday } from "@/lib/data/today/today";
import type { ShopHandle } from "@/lib/db/shop";
import { tokenHash } from "@/lib/db/token";
import { RUN_ANSWERS, type RunAnswer } from "@/lib/domain/tuning/runAnswers";
import { RunAnswerSchema } from "@/lib/schemas/runAnswers";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { oneJob } from "../support/oneJob";
import { ORIGIN } from "../support/quotes";
import { as, twoShops } from "../support/shops";

const ALL = { quotes: true, invoices: true, stock: true };

async function handedOver() {
  const { a, b } = await twoShops();
  for (const shop of [a, b]) await nameShop(shop);
  const { jobId, ready } = await readyJob(a);
  await readyJob(b);
  return { a, b, jobId, bikeId: ready.bikeId };
}

const say = (shop: ShopHandle, jobId: number, answer: RunAnswer, words = "", key?: string) =>
  answerRuns(shop, { jobId, answer, words, key });
const lessons = async (shop: ShopHandle, bikeId: number) => {
  const bike = await shop.read.bike.findUniqueOrThrow({ where: { id: bikeId } });
  return listLessons(shop, bike.modelCardId);
};

describe("an answer to how it runs", () => {
  it("is led to by the letter, which opens the job's page with each answer, and by nothing that opens it", async () => {
    const { a, b, jobId } = await handedOver();
    await issuedInvoice(a, jobId);
    await switchLetter(a, { kind: "howRuns", on: true, days: 14, version: 0 });
    const later = as(a, { now: new Date(a.now.getTime() + 14 * 86_400_000) });
    expect(await howRunsRound(later, ORIGIN)).toBe(1);
    const { text } = await a.read.mail.findFirstOrThrow({ where: { letter: "howRuns" } });
    const links = [...text.matchAll(/^.+: (\S+)\/runs\?answer=(\w+)$/gmu)];
    expect(links.map(([, , answer]) => answer)).toEqual([...RUN_ANSWERS]);
    const token = links[0]?.[1]?.split("/").at(-1) ?? "";
    const link = { where: { tokenHash: tokenHash(token) } };
    expect(await a.read.customerLink.findUnique(link)).toMatchObject({ purpose: "job", jobId });
    expect(await b.read.customerLink.findUnique(link)).toBeNull();
    expect(await askedRuns(later, jobId)).toMatchObject({ last: null });
    expect(await a.read.runAnswer.count()).toBe(0);
  });

  it("stands on the bike and the job, and on Today until somebody looked", async () => {
    const { a, b, jobId, bikeId } = await handedOver();
    await say(a, jobId, "startsBadly", "Cold, after a week.", "runs-key-1");
    await say(a, jobId, "startsBadly", "Cold, after a week.", "runs-key-1");
    const said = { answer: "startsBadly", words: "Cold, after a week.", seenAt: null };
    const [today] = (await getToday(a, ALL)).answers;
    expect(today).toMatchObject({ answer: "startsBadly", job: { id: jobId } });
    expect((await getToday(b, ALL)).answers).toEqual([]);
    expect((await getJob(a, jobId))?.runAnswers).toMatchObject([said]);
    expect((await getBike(a, bikeId))?.runAnswers).toMatchObject([said]);
    await lookAtAnswers(a, { jobId, upToId: today?.id ?? 0 });
    expect((await getToday(a, ALL)).answers).toEqual([]);
    expect((await getJob(a, jobId))?.runAnswers).toMatchObject([{ seenAt: a.now }]);
    await expect(lookAtAnswers(a, { jobId, upToId: today?.id ?? 0 })).rejects.toThrow(
      /looked at this answer/,
    );
    // It says nothing of the mixture.
    expect(await lessons(a, bikeId)).toEqual([]);
  });

  it("is replaced by a second one: both stay, and only the newest counts in the calibration", async () => {
    const { a, jobId, bikeId } = await handedOver();
    await say(a, jobId, "tooHot");
    expect(await lessons(a, bikeId)).toMatchObject([{ source: "felt", samples: 0, state: "teaches" }]);
    await say(a, jobId, "runsWell");
    expect((await getJob(a, jobId))?.runAnswers.map((one) => one.answer)).toEqual(["runsWell", "tooHot"]);
    expect(await lessons(a, bikeId)).toMatchObject([
      { source: "asLeft", state: "teaches" },
      { source: "felt", state: "taken out", why: "The customer answered again." },
    ]);
    await say(a, jobId, "hesitates");
    expect((await lessons(a, bikeId)).map((one) => one.state)).toEqual(["taken out", "taken out"]);
    const kept = await a.read.runAnswer.findMany();
    await expect(a.write((tx) => tx.runAnswer.updateMany({ data: { words: "other" } }))).rejects.toThrow();
    await expect(a.write((tx) => tx.runAnswer.deleteMany())).rejects.toThrow();
    expect(await a.read.runAnswer.findMany()).toEqual(kept);
  });

  it("counts for nothing once the bike was worked on again: it may speak of other settings", async () => {
    const { a, jobId, bikeId } = await handedOver();
    const next = await oneJob(a, { number: 900 });
    await a.write((tx) =>
      tx.job.update({
        where: { id: next.jobId },
        data: { bikeId, startedAt: new Date(a.now.getTime() + 60_000) },
      }),
    );
    await say(a, jobId, "tooHot");
    expect((await getBike(a, bikeId))?.runAnswers).toHaveLength(1);
    expect(await lessons(a, bikeId)).toEqual([]);
  });

  it("is refused before the work is finished, and where five wait to be looked at", async () => {
    const { a, jobId } = await handedOver();
    for (const words of ["1", "2", "3", "4", "5"]) await say(a, jobId, "other", `Word ${words}`);
    await expect(say(a, jobId, "runsWell")).rejects.toThrow(/not looked at your earlier answers/);
    const newest = (await getToday(a, ALL)).answers;
    expect(newest).toMatchObject([{ words: "Word 5" }]);
    await lookAtAnswers(a, { jobId, upToId: newest[0]?.id ?? 0 });
    await say(a, jobId, "runsWell");
    await a.write((tx) => tx.job.update({ where: { id: jobId }, data: { finishedAt: null } }));
    await expect(say(a, jobId, "tooHot")).rejects.toThrow(/is not finished/);
    expect(await askedRuns(a, jobId)).toBeNull();
  });

  it("needs words where it is something else, and no more than 600 characters of them", () => {
    expect(RunAnswerSchema.safeParse({ answer: "other", words: "  " }).success).toBe(false);
    expect(RunAnswerSchema.safeParse({ answer: "runsBadly" }).success).toBe(false);
    fc.assert(
      fc.property(
        fc.constantFrom(...RUN_ANSWERS),
        fc.string({ minLength: 2, maxLength: 700 }),
        (answer, words) => {
          const read = RunAnswerSchema.safeParse({ answer, words });
          const trimmed = words.trim().length;
          expect(read.success).toBe(trimmed <= 600 && (answer !== "other" || trimmed > 1));
        },
      ),
    );
  });
});
