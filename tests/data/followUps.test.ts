import { beforeEach, describe, expect, it } from "vitest";
import { createFollowUpIn, createRechecksIn } from "@/lib/data/followUps/create";
import { finishFollowUp } from "@/lib/data/followUps/finish";
import { listFollowUps, listFollowUpsOfBike } from "@/lib/data/followUps/list";
import { getToday } from "@/lib/data/today/today";
import type { ShopHandle } from "@/lib/db/shop";
import { oneJob } from "../support/oneJob";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
});

const ALL = { quotes: true, invoices: true, stock: true };
const due = { state: "due" as const, after: undefined };

async function made(shop: ShopHandle, odometerKm: number | null) {
  const { jobId } = await oneJob(shop);
  const { bikeId } = await shop.write((tx) =>
    tx.job.update({ where: { id: jobId }, data: { odometerKm }, select: { bikeId: true } }),
  );
  await shop.write((tx) => createFollowUpIn(tx, shop, jobId));
  return { jobId, bikeId };
}

describe("a follow-up", () => {
  it("is made once for a job, and not at all where the shop wants none", async () => {
    const { jobId } = await made(a, 20_000);
    await a.write((tx) => createFollowUpIn(tx, a, jobId));
    expect(await a.read.followUp.count()).toBe(1);
    await b.write((tx) => tx.settings.update({ where: { id: 1 }, data: { followUpDays: 0 } }));
    await made(b, 20_000);
    expect(await b.read.followUp.count()).toBe(0);
  });

  it("comes due by distance before its day, or by its day", async () => {
    const { bikeId } = await made(a, 20_000);
    await made(a, null);
    expect((await listFollowUps(a, due)).rows.map((row) => row.dueNow)).toEqual([false, false]);
    await a.write((tx) => tx.bike.update({ where: { id: bikeId }, data: { odometerKm: 23_000 } }));
    expect((await listFollowUps(a, due)).rows.map((row) => [row.dueNow, row.why])).toEqual([
      [true, "distance"],
      [false, null],
    ]);
    const later = as(a, { now: new Date("2027-05-25T00:00:00Z") });
    expect((await listFollowUps(later, due)).rows.map((row) => row.why)).toEqual(["distance", "day"]);
    expect((await listFollowUpsOfBike(a, bikeId)).length).toBe(1);
  });

  it("comes due sooner by distance where the bike's use is hard, and says for what; a later change leaves it", async () => {
    const { jobId } = await oneJob(a);
    await a.write((tx) => tx.job.update({ where: { id: jobId }, data: { odometerKm: 20_000 } }));
    const { bikeId } = await a.read.job.findUniqueOrThrow({ where: { id: jobId } });
    const dust = await a.read.severity.findFirstOrThrow({ where: { name: "Dust" } });
    await a.write((tx) => tx.bike.update({ where: { id: bikeId }, data: { severityId: dust.id } }));
    await a.write((tx) => createFollowUpIn(tx, a, jobId));
    const recheck = { what: "Clamps", km: 500, days: 30 };
    await a.write((tx) => createRechecksIn(tx, a, { id: jobId, bikeId }, [recheck], 20_000));
    await a.write((tx) => tx.bike.update({ where: { id: bikeId }, data: { severityId: null } }));
    const kept = await a.read.followUp.findMany({ where: { jobId }, orderBy: { id: "asc" } });
    // 3000 km of the shop's rule and 500 of the package's, each divided by 2.5.
    expect(kept.map(({ dueKm, kmWhy }) => [dueKm, kmWhy])).toEqual([
      [21_200, "sooner for “Dust”, ÷ 2.5"],
      [20_200, "sooner for “Dust”, ÷ 2.5"],
    ]);
    const other = await made(b, 20_000);
    const [plain] = await listFollowUpsOfBike(b, other.bikeId);
    expect(plain).toMatchObject({ dueKm: 23_000, kmWhy: "" });
  });

  it("comes due by the distance that the bike's own readings estimate, on the list, on the bike and on Today", async () => {
    const { bikeId, jobId } = await made(a, 20_000);
    const other = await made(b, 20_000);
    const day = (days: number) => new Date(a.now.getTime() + days * 86_400_000);
    for (const [shop, id] of [
      [a, bikeId],
      [b, other.bikeId],
    ] as const)
      await shop.write((tx) => tx.bike.update({ where: { id }, data: { odometerKm: 20_000 } }));
    const [unread] = (await listFollowUps(a, due)).rows;
    expect(unread).toMatchObject({ estimate: null, dueNow: false });
    await a.write(async (tx) => {
      for (const [days, km] of [
        [-200, 12_000],
        [-100, 16_000],
        [0, 20_000],
      ] as const)
        await tx.intake.create({ data: { bikeId, at: day(days), odometerKm: km } });
    });
    // Forty kilometres a day: 3,000 more are reached after 75 days; of three readings the band is half either way.
    const [row] = (await listFollowUps(a, due)).rows;
    expect(row).toMatchObject({ dueNow: false, estimate: { kmPerDay: 40, readings: 3, km: 20_000 } });
    expect(row?.estimate?.on).toBe("2027-02-08");
    expect([row?.estimate?.early, row?.estimate?.late]).toEqual(["2027-01-14", "2027-04-24"]);
    expect((await getToday(as(a, { now: day(70) }), ALL)).followUps).toEqual([]);
    const later = as(a, { now: day(80) });
    expect((await listFollowUps(later, due)).rows).toMatchObject([{ dueNow: true, why: "estimate", jobId }]);
    expect(await listFollowUpsOfBike(later, bikeId)).toMatchObject([{ why: "estimate" }]);
    expect((await getToday(later, ALL)).followUps).toMatchObject([{ bikeId }]);
    // Nothing of it reaches the other shop, whose bike was read once.
    expect((await getToday(as(b, { now: day(80) }), ALL)).followUps).toEqual([]);
  });

  it("is done with its outcome once; a second answer is told how it stands", async () => {
    await made(a, 20_000);
    const [row] = (await listFollowUps(a, due)).rows;
    const answer = { id: row?.id ?? 0, version: 1, outcome: "Runs well, no hesitation" };
    await finishFollowUp(a, { ...answer, state: "done" });
    await expect(finishFollowUp(a, { ...answer, state: "dropped" })).rejects.toThrow(/already done/);
    await expect(finishFollowUp(b, { ...answer, state: "done" })).rejects.toMatchObject({ kind: "missing" });
    expect((await listFollowUps(a, due)).rows).toEqual([]);
    expect((await listFollowUps(a, { state: "done", after: undefined })).rows[0]?.outcome).toBe(
      "Runs well, no hesitation",
    );
  });

  it("lists page by day and id without leaving one out or showing one twice", async () => {
    const bikes = await made(a, null);
    await a.write(async (tx) => {
      for (let n = 0; n < 120; n++)
        await tx.followUp.create({
          data: {
            bikeId: bikes.bikeId,
            what: `${n}`,
            dueOn: `2027-01-${String(10 + (n % 7)).padStart(2, "0")}`,
            createdAt: a.now,
          },
        });
    });
    const seen: number[] = [];
    for (let after: number | undefined; ; ) {
      const page = await listFollowUps(a, { state: "due", after });
      seen.push(...page.rows.map((row) => row.id));
      if (page.next === null) break;
      after = page.next;
    }
    expect(seen.length).toBe(121);
    expect(new Set(seen).size).toBe(121);
  });
});
