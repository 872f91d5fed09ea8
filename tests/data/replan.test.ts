import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { addFinding } from "@/lib/data/jobs/findings";
import { passStep } from "@/lib/data/jobs/pass";
import { sendQuote } from "@/lib/data/quotes/send";
import { chooseOptions, createQuote } from "@/lib/data/quotes/write";
import type { ShopHandle } from "@/lib/db/shop";
import { ORIGIN, type Ready, readyToQuote, sentQuote, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

async function begun(shop: ShopHandle): Promise<Ready & { jobId: number }> {
  const ready = await readyToQuote(shop);
  const { jobId } = await acceptQuote(shop, yes(await sentQuote(shop, ready)));
  await shop.write((tx) => tx.job.update({ where: { id: jobId }, data: { arrivedAt: shop.now } }));
  return { ...ready, jobId };
}

const card = (shop: ShopHandle, jobId: number) =>
  shop.read.step.findMany({
    where: { jobId },
    include: { holdPoints: { include: { readings: true } }, reservations: true },
    orderBy: { position: "asc" },
  });
const line = (step: { kind: string; key: string; state: string }) => `${step.kind} ${step.key} ${step.state}`;

/** Passes the next step, each reading in the middle of its limits. */
async function passNext(shop: ShopHandle, jobId: number): Promise<string> {
  const step = (await card(shop, jobId)).find((one) => one.state === "todo");
  if (!step) throw new Error("Nothing is left.");
  await passStep(shop, {
    stepId: step.id,
    version: step.version,
    readings: step.holdPoints
      .filter((hold) => hold.kind === "reading")
      .map((hold) => ({ holdPointId: hold.id, value: ((hold.low ?? 0) + (hold.high ?? 0)) / 2 })),
    checks: step.holdPoints.filter((hold) => hold.kind === "check").map((hold) => hold.id),
    signatures: step.holdPoints.filter((hold) => hold.kind === "signature").map((hold) => hold.id),
    parts: step.reservations
      .filter((one) => one.state === "held")
      .map((one) => ({ reservationId: one.id, used: one.reservedMilli > 0, why: "There is none." })),
  });
  return `${step.kind} ${step.key}`;
}
async function passTo(shop: ShopHandle, jobId: number, last: string): Promise<void> {
  while ((await passNext(shop, jobId)) !== last);
}

/** Extra work of the same package, with these options only, sent and accepted. */
async function vary(shop: ShopHandle, at: Ready & { jobId: number }, choices: string[]): Promise<number> {
  const id = await createQuote(shop, { bikeId: at.bikeId, packageId: at.packageId, variationOfId: at.jobId });
  await chooseOptions(shop, { id, version: 1, choices, touched: "" });
  const { revisionId } = await sendQuote(shop, { id, version: 2, origin: ORIGIN });
  const { hash, minutes } = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
  await acceptQuote(shop, yes({ id, revisionId, hash: hash ?? "", token: "" }));
  return minutes;
}

describe("a variation in the middle of the work", () => {
  it("is done while what it needs is open: nothing is opened twice, what is done stays done", async () => {
    const { a, b } = await twoShops();
    const job = await begun(a);
    await passTo(a, job.jobId, "operation fit-main");
    const before = await card(a, job.jobId);
    const { minutes: agreed } = await a.read.job.findUniqueOrThrow({ where: { id: job.jobId } });
    // By itself the needle takes 9 + 5 + 35 + 6 + 12 = 67 minutes; what is open for the first work is not charged again.
    expect(await vary(a, job, ["needle"])).toBe(35);
    const after = await card(a, job.jobId);
    const past = before.filter((step) => step.state === "done");
    expect(after.slice(0, past.length).map((step) => step.id)).toEqual(past.map((step) => step.id));
    const rest = after.slice(past.length);
    expect(rest.filter((step) => step.kind === "open" && ["seat", "tilt"].includes(step.key))).toEqual([]);
    expect(rest.filter((step) => step.key === "needle").map(line)).toEqual(["operation needle todo"]);
    const sum = (steps: typeof after) => steps.reduce((total, step) => total + step.minutes, 0);
    expect(sum(after) - sum(before)).toBe(35);
    expect(after.map((step) => step.position)).toEqual(after.map((_, at) => at + 1));
    expect(after.filter((step) => step.kind === "ride").map((step) => step.position)).toEqual([after.length]);
    expect((await a.read.job.findUniqueOrThrow({ where: { id: job.jobId } })).minutes).toBe(agreed + 35);
    while ((await passNextUnlessRide(a, job.jobId)) !== null);
    expect((await card(a, job.jobId)).filter((step) => step.state === "todo").map(line)).toEqual([
      "ride test-ride todo",
    ]);
    expect(await b.read.step.count()).toBe(0);
  });

  it("keeps the parts reserved for each step, and what hangs on a step that is still to come", async () => {
    const { a } = await twoShops();
    const job = await begun(a);
    await passTo(a, job.jobId, "operation fit-main");
    const close = (await card(a, job.jobId)).find((step) => line(step) === "close bowl todo");
    await addFinding(a, { jobId: job.jobId, stepId: close?.id, text: "Needle shoulder worn" });
    await vary(a, job, ["needle", "breather"]);
    const after = await card(a, job.jobId);
    const breathers = after.filter((step) => step.key === "breather");
    expect(breathers.map((step) => step.reservations.length)).toEqual([1, 1]);
    expect((await a.read.finding.findFirstOrThrow()).stepId).toBe(close?.id);
    expect(after.some((step) => step.id === close?.id)).toBe(true);
  });

  it("leaves a step that was taken in hand the next, with its reading", async () => {
    const { a } = await twoShops();
    const job = await begun(a);
    await passTo(a, job.jobId, "open bowl");
    const step = (await card(a, job.jobId)).find((one) => line(one) === "operation fit-main todo");
    const hold = step?.holdPoints[0];
    if (!step || !hold) throw new Error("The jet is fitted next, held by a reading.");
    const outside = { holdPointId: hold.id, value: 20 };
    await passStep(a, { stepId: step.id, version: 1, readings: [outside], checks: [], signatures: [] });
    await vary(a, job, ["needle"]);
    const next = (await card(a, job.jobId)).find((one) => one.state === "todo");
    expect(next?.id).toBe(step.id);
    expect(next?.holdPoints[0]?.readings).toHaveLength(1);
    expect((await a.read.job.findFirstOrThrow()).stopped).toContain("Float height 20");
  });

  it("opens again what has been closed, and rides at the end, when everything was done before", async () => {
    const { a } = await twoShops();
    const job = await begun(a);
    while ((await passNextUnlessRide(a, job.jobId)) !== null);
    expect((await a.read.job.findFirstOrThrow()).state).toBe("ride");
    await vary(a, job, ["needle"]);
    expect((await a.read.job.findFirstOrThrow()).state).toBe("inWork");
    const rest = (await card(a, job.jobId)).filter((step) => step.state === "todo");
    expect(rest.map((step) => `${step.kind} ${step.key}`)).toEqual([
      "open seat",
      "open tilt",
      "operation needle",
      "close tilt",
      "close seat",
      "ride test-ride",
    ]);
  });
});

async function passNextUnlessRide(shop: ShopHandle, jobId: number): Promise<string | null> {
  const next = (await card(shop, jobId)).find((step) => step.state === "todo");
  return !next || next.kind === "ride" ? null : passNext(shop, jobId);
}
