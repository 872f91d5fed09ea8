import { describe, expect, it } from "vitest";
import { bikeLife } from "@/lib/data/figures/bikeLife";
import { makeJob } from "../support/jobs";
import { twoShops } from "../support/shops";

describe("the life of a bike", () => {
  it("has its jobs, sheets, rides and parts in order, each with its distance where that can be told, and no other shop's", async () => {
    const { a, b } = await twoShops();
    const job = await makeJob(a);
    await makeJob(b);
    const at = (days: number) => new Date(a.now.getTime() + days * 86_400_000);
    await a.write(async (tx) => {
      await tx.settingSheet.deleteMany({ where: { bikeId: job.bikeId } });
      await tx.job.update({ where: { id: job.id }, data: { arrivedAt: at(0), odometerKm: 20_000 } });
      await tx.testRide.create({ data: { jobId: job.id, at: at(10), good: true } });
      await tx.settingSheet.create({
        data: { bikeId: job.bikeId, jobId: job.id, kind: "asLeft", takenAt: at(20), odometerKm: 20_400 },
      });
      await tx.photo.create({
        data: {
          noun: "bike",
          nounId: job.bikeId,
          file: "one.jpg",
          hash: "x",
          width: 1,
          height: 1,
          bytes: 1,
          caption: "Left side",
          at: at(-3),
        },
      });
    });
    const life = await bikeLife(a, job.bikeId);
    expect(life?.events.map((one) => [one.kind, one.placedKm, one.estimated])).toEqual([
      ["photo", null, false],
      ["job", 20_000, false],
      ["ride", 20_200, true],
      ["sheet", 20_400, false],
    ]);
    expect((await bikeLife(b, job.bikeId))?.events.some((one) => one.kind === "photo")).toBe(false);
    expect(await bikeLife(a, 999)).toBeNull();
  });
});
