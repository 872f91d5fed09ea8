import { beforeEach, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { removeBike } from "@/lib/data/bikes/remove";
import { packageEffects } from "@/lib/data/figures/effects";
import { effectsOn, recordEffect, withdrawEffect } from "@/lib/data/jobs/effects";
import { previewQuote } from "@/lib/data/quotes/preview";
import { shownQuote } from "@/lib/data/quotes/shown";
import { createQuote } from "@/lib/data/quotes/write";
import { tellEffectsOnQuotes } from "@/lib/data/shop/settings";
import type { ShopHandle } from "@/lib/db/shop";
import { didHereText } from "@/lib/documents/didHere";
import { EffectSchema } from "@/lib/schemas/effects";
import { type MadeJob, makeJob } from "../support/jobs";
import { readyToQuote, sentQuote, yes } from "../support/quotes";
import { seeded } from "../support/seeded";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
});

const noise = (job: MadeJob, side: "before" | "after", value: number, more: object = {}) =>
  EffectSchema.parse({
    bikeId: String(job.bikeId),
    jobId: String(job.id),
    side,
    kind: "noise",
    value: String(value),
    distanceM: "0.5",
    rpm: "4000",
    instrument: "Class 2 meter",
    ...more,
  });
const packageOf = async (shop: ShopHandle, jobId: number) => {
  const job = await shop.read.job.findUniqueOrThrow({
    where: { id: jobId },
    select: { revisionId: true },
  });
  const work = await shop.read.quoteWork.findFirstOrThrow({
    where: { revisionId: job.revisionId },
    select: { packageRevisionId: true, packageRevision: { select: { packageId: true } } },
  });
  return { revisionId: work.packageRevisionId ?? 0, packageId: work.packageRevision?.packageId ?? 0 };
};

it("keeps figures with bike and job, withdrawn ones out of the sum, and none of it in the other shop", async () => {
  const job = await makeJob(a);
  const elsewhere = await makeJob(b);
  const key = "4f7d8c52-93b8-4a74-9f0e-1f54c0a7a012";
  await recordEffect(a, { ...noise(job, "before", 94), key });
  await recordEffect(a, { ...noise(job, "before", 94), key });
  const wrong = await recordEffect(a, noise(job, "after", 130));
  await recordEffect(a, noise(job, "after", 97));
  await withdrawEffect(a, { effectId: wrong, version: 1, why: "Beside the silencer" });
  await expect(withdrawEffect(a, { effectId: wrong, version: 1, why: "again" })).rejects.toMatchObject({
    kind: "conflict",
  });
  const [of] = await effectsOn(a, job.bikeId);
  expect(of?.figures.map((one) => [one.side, one.value, one.withdrawnWhy])).toEqual([
    ["before", 94, ""],
    ["after", 130, "Beside the silencer"],
    ["after", 97, ""],
  ]);
  expect(of?.compared).toMatchObject([{ before: { value: 94 }, after: { value: 97 }, difference: 3 }]);
  expect(await effectsOn(b, elsewhere.bikeId)).toEqual([]);
  const { packageId } = await packageOf(a, job.id);
  expect(await packageEffects(b, packageId)).toEqual([]);
  await expect(
    recordEffect(a, noise({ ...job, bikeId: job.bikeId + 99 }, "after", 90)),
  ).rejects.toMatchObject({
    message: expect.stringContaining("another bike"),
  });
  const { version } = await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } });
  await expect(removeBike(a, { id: job.bikeId, version })).rejects.toMatchObject({
    message: expect.stringContaining("3 before-and-after figures"),
  });
});

it("tells what a package did over all bikes as a plain recount does, each number with its bike", async () => {
  const random = seeded(23);
  const first = await makeJob(a);
  const { revisionId, packageId } = await packageOf(a, first.id);
  const changes: { bikeId: number; change: number }[] = [];
  for (let i = 0; i < 9; i++) {
    const job = i === 0 ? first : await makeJob(a);
    const { revisionId: quoted } = await a.read.job.findUniqueOrThrow({ where: { id: job.id } });
    await a.write((tx) =>
      tx.quoteWork.updateMany({ where: { revisionId: quoted }, data: { packageRevisionId: revisionId } }),
    );
    const before = 88 + Math.round(random() * 80) / 10;
    const after = 88 + Math.round(random() * 80) / 10;
    await recordEffect(a, noise(job, "before", before));
    if (i % 4 === 3) continue;
    await recordEffect(a, noise(job, "after", after));
    changes.push({ bikeId: job.bikeId, change: after - before });
  }
  const other = await makeJob(a);
  await recordEffect(a, noise(other, "before", 60));
  await recordEffect(a, noise(other, "after", 120));
  const sorted = changes.map((one) => one.change).sort((x, y) => x - y);
  const [over] = await packageEffects(a, packageId);
  expect(over).toMatchObject({ kind: "noise", bikes: 7 });
  expect(over?.median).toBeCloseTo(sorted[3] ?? 0, 9);
  expect([over?.low, over?.high]).toEqual([sorted[0], sorted.at(-1)]);
  expect(over?.counted.map((one) => one.bikeId).sort()).toEqual(changes.map((one) => one.bikeId).sort());
});

it("is read by the customer where the shop ticks it, as it stood at sending, with no bike and no name", async () => {
  for (const shop of [a, b]) {
    const ready = await readyToQuote(shop);
    const first = await acceptQuote(shop, yes(await sentQuote(shop, ready)));
    const job = { id: first.jobId, bikeId: ready.bikeId } as MadeJob;
    await recordEffect(shop, noise(job, "before", 94));
    await recordEffect(shop, noise(job, "after", 96.5));
    if (shop === a) await tellEffectsOnQuotes(shop, true);
    const id = await createQuote(shop, ready);
    const preview = await previewQuote(shop, id);
    const sent = await sentQuote(shop, ready);
    await recordEffect(shop, noise(job, "after", 120));
    const read = await shownQuote(shop, sent.revisionId, { extras: [] }, "nb-NO");
    if (shop === b) {
      expect([preview?.text.printed.did, read?.printed.did]).toEqual([undefined, undefined]);
      continue;
    }
    const did = read?.printed.did ?? [];
    expect(did).toMatchObject([
      { name: "Open-road breathing", effects: [{ kind: "noise", median: 2.5, bikes: 1 }] },
    ]);
    expect(preview?.text.printed.did).toEqual(did);
    expect(JSON.stringify(did)).not.toMatch(/bikeId|Ines/);
    const [one] = did[0]?.effects ?? [];
    if (!one) throw new Error("It is told.");
    expect(didHereText(one, "en-AU")).toBe("On one bike: noise +2.5 dB(A), 0.5 m away, 4,000 rpm");
    expect(
      didHereText({ ...one, kind: "idle", bikes: 14, median: -40, low: -70, high: 0, under: {} }, "nb-NO"),
    ).toBe("På 14 sykler: ujevn tomgang −40 o/min i midten, fra −70 o/min til 0 o/min");
  }
});
