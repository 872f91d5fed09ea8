import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { createFollowUpIn } from "@/lib/data/followUps/create";
import { getCard } from "@/lib/data/jobs/card";
import { differentOn, keepDifferent } from "@/lib/data/jobs/different";
import { finishJob } from "@/lib/data/jobs/finish";
import { getJob } from "@/lib/data/jobs/get";
import { passStep } from "@/lib/data/jobs/pass";
import { arriveJob } from "@/lib/data/jobs/states";
import { takeEntries } from "@/lib/data/library/write";
import { createPackage, publishRevision } from "@/lib/data/packages/author";
import { beginDraft } from "@/lib/data/packages/draft";
import { getPackage } from "@/lib/data/packages/get";
import { pickEntries } from "@/lib/data/packages/pickEntries";
import type { ShopHandle } from "@/lib/db/shop";
import { makeBike, sentQuote, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

const WORK = ["look-diaphragms-rack", "bench-balance", "vacuum-balance"];

/** A job of a package picked from the library, agreed and arrived; answers its id. */
async function rackJob(shop: ShopHandle): Promise<number> {
  await takeEntries(shop, { entries: [], all: "yes" });
  const packageId = await createPackage(shop, { code: "RACK", name: "Rack", summary: "" });
  await beginDraft(shop, { packageId });
  await pickEntries(shop, { packageId, entries: WORK, option: "Rack balanced", grade: "" });
  const draft = await shop.read.packageRevision.findFirstOrThrow({ where: { packageId } });
  await publishRevision(shop, { revisionId: draft.id, version: draft.version });
  const { customerId, bikeId } = await makeBike(shop, "Ines Valdborg");
  const sent = await sentQuote(shop, { customerId, bikeId, packageId });
  const { jobId } = await acceptQuote(shop, yes(sent));
  const job = await getJob(shop, jobId);
  await arriveJob(shop, { jobId, version: job?.version ?? 0, odometerKm: 41_200 });
  return jobId;
}

/** Every step of the card passed, readings at their lower limit. */
async function workCard(shop: ShopHandle, jobId: number): Promise<string[]> {
  const card = await getCard(shop, jobId);
  const steps = card?.steps ?? [];
  for (const step of steps) {
    const ids = (kind: string) => step.holdPoints.filter((hold) => hold.kind === kind).map(({ id }) => id);
    const readings = step.holdPoints
      .filter((hold) => hold.kind === "reading")
      .map((hold) => ({ holdPointId: hold.id, value: hold.low ?? 0 }));
    const passed = await passStep(shop, {
      stepId: step.id,
      version: step.version,
      readings,
      checks: ids("check"),
      signatures: ids("signature"),
    });
    expect(passed).toBe("passed");
  }
  return steps.map(({ kind, name }) => `${kind}: ${name}`);
}

describe("a job whose package was picked from the library", () => {
  it("is done on its card with cautions and checks where they belong, and leaves what is looked at again in the diary", async () => {
    const { a, b } = await twoShops();
    const jobId = await rackJob(a);
    const card = await getCard(a, jobId);
    const out = card?.steps.find(({ name }) => name === "Take out: carburettors as a rack");
    expect(out?.cautions.join()).toContain("the link between them bends");
    const back = card?.steps.find(({ name }) => name === "Put back: carburettors as a rack");
    expect(back?.holdPoints.map(({ kind, name }) => [kind, name])).toContainEqual([
      "check",
      "Threadlocker: screws of the throttle link",
    ]);
    const done = await workCard(a, jobId);
    expect(done.at(0)).toBe("open: Take off: seat");
    expect(done.indexOf("operation: Balance by vacuum")).toBeGreaterThan(
      done.indexOf("close: Put back: tank"),
    );
    const { version } = (await getJob(a, jobId)) ?? { version: 0 };
    const plain = { values: {}, hows: {}, note: "Runs even.", cautions: "on" as const };
    await finishJob(a, { jobId, version, ...plain, odometerKm: 41_210 });
    const [again] = await a.read.followUp.findMany({ where: { jobId }, orderBy: { id: "asc" } });
    // 30 days after 25 November; 300 km after the odometer at the end.
    expect(again).toMatchObject({
      recheck: true,
      what: "Look at again, it has been hot and cold: Manifold clamps, balance and idle",
      dueOn: "2026-12-25",
      dueKm: 41_510,
    });
    await a.write((tx) => createFollowUpIn(tx, a, jobId));
    const all = await a.read.followUp.findMany({ where: { jobId }, orderBy: { id: "asc" } });
    expect(all.map(({ recheck }) => recheck)).toEqual([true, false]);
    expect(await b.read.followUp.count()).toBe(0);
  });

  it("teaches its package at the end: what was different goes into a draft with its evidence, once, and nothing published changes", async () => {
    const { a, b } = await twoShops();
    const jobId = await rackJob(a);
    expect(await differentOn(a.read, jobId)).toEqual([]);
    const balance = await a.read.step.findFirstOrThrow({ where: { jobId, key: "vacuum-balance" } });
    await workCard(a, jobId);
    const began = new Date(a.now.getTime() - 41 * 60_000);
    await a.write((tx) =>
      tx.timeEntry.create({
        data: { staffId: a.by.staffId ?? 0, jobId, stepId: balance.id, startedAt: began, endedAt: a.now },
      }),
    );
    const { version } = (await getJob(a, jobId)) ?? { version: 0 };
    const plain = { values: {}, hows: {}, note: "", cautions: "on" as const };
    await finishJob(a, { jobId, version, ...plain, odometerKm: null });
    const [found] = await differentOn(a.read, jobId);
    expect(found).toMatchObject({
      name: "Rack",
      number: 1,
      differences: [{ item: "Balance by vacuum", was: 24, now: 41 }],
    });
    const kept = found?.differences.map(({ id }) => id) ?? [];
    const packageId = found?.packageId ?? 0;
    const input = { jobId, packageId, kept, key: "keep-different-1" };
    expect([await keepDifferent(a, input), await keepDifferent(a, input)]).toEqual([2, 2]);
    await expect(keepDifferent(a, { jobId, packageId, kept: ["minutes:open:gone"] })).rejects.toThrow(
      "does not show this",
    );
    const draft = (await getPackage(a, packageId))?.shown;
    expect(draft).toMatchObject({ number: 2, state: "draft" });
    expect(draft?.recipe.operations.find(({ key }) => key === "vacuum-balance")?.minutes).toBe(41);
    expect(draft?.evidence).toMatchObject([
      { item: "Balance by vacuum", evidence: "41 min were spent on work, 24 planned", jobId },
    ]);
    const published = (await getPackage(a, packageId, 1))?.shown;
    expect(published?.recipe.operations.find(({ key }) => key === "vacuum-balance")?.minutes).toBe(24);
    await expect(keepDifferent(b, { jobId, packageId, kept })).rejects.toThrow("does not show this");
  });
});
