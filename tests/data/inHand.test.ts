import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { oneTaps, shortJobs, useForJob } from "@/lib/data/jobs/takePart";
import { createPart } from "@/lib/data/parts/save";
import { getPart } from "@/lib/data/stock/parts";
import { reserveIn } from "@/lib/data/stock/reservations";
import type { ShopHandle } from "@/lib/db/shop";
import { NewPartSchema } from "@/lib/schemas/parts";
import { oneJob } from "../support/oneJob";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let made = 0;

const part = (shop: ShopHandle, opening: string, more: Record<string, string> = {}) =>
  createPart(
    shop,
    NewPartSchema.parse({
      code: `IH-${++made}`,
      name: "Main jet",
      kind: "other",
      unit: "each",
      opening,
      ...more,
    }),
  );
const reserve = (jobId: number, partId: number, wantedMilli: number) =>
  a.write((tx) => reserveIn(tx, a, { jobId, partId, wantedMilli }));
const inWork = async () => {
  const job = await oneJob(a);
  await a.write((tx) => tx.job.update({ where: { id: job.jobId }, data: { state: "inWork" } }));
  return job;
};
const tapsOf = async (id: number) => {
  const view = await getPart(a, id, true);
  return view ? ((await oneTaps(a, [view])).get(id) ?? []) : [];
};

beforeAll(async () => {
  ({ a, b } = await twoShops());
});

describe("using a part in one tap", () => {
  it("is offered for what jobs in work hold, one piece at a time, what is measured as reserved", async () => {
    const jet = await part(a, "5");
    const trim = await part(a, "900", { unit: "mm" });
    const [job, waiting] = [await inWork(), await oneJob(a)];
    await reserve(job.jobId, jet, 2_000);
    await reserve(waiting.jobId, jet, 1_000);
    await reserve(job.jobId, trim, 155_000);
    expect(await tapsOf(jet)).toMatchObject([{ job: job.number, quantityMilli: 1_000 }]);
    expect(await tapsOf(trim)).toMatchObject([{ job: job.number, quantityMilli: 155_000 }]);
    expect((await oneTaps(b, [])).size).toBe(0);
  });

  it("is offered of what is free for the job whose time runs, that job first", async () => {
    const jet = await part(a, "3");
    const [own, other] = [await inWork(), await inWork()];
    await reserve(other.jobId, jet, 1_000);
    expect((await tapsOf(jet)).map((tap) => tap.job)).toEqual([other.number]);
    await a.write((tx) =>
      tx.timeEntry.create({ data: { staffId: a.by.staffId ?? 0, jobId: own.jobId, startedAt: a.now } }),
    );
    expect(await tapsOf(jet)).toMatchObject([
      { job: own.number, reservationId: null },
      { job: other.number },
    ]);
    await reserve(own.jobId, jet, 2_000);
    expect((await tapsOf(jet)).map((tap) => [tap.job, tap.reservationId !== null])).toEqual([
      [own.number, true],
      [other.number, true],
    ]);
  });

  it("takes the job's own reservation first, then what is free, and once for one key", async () => {
    const jet = await part(a, "3");
    const [job, other] = [await inWork(), await oneJob(a)];
    await reserve(job.jobId, jet, 1_000);
    await reserve(other.jobId, jet, 1_000);
    const take = (key: string) => useForJob(a, { partId: jet, jobId: job.jobId, quantityMilli: 1_000, key });
    await take("tap-once-1");
    await take("tap-once-1");
    expect(await getPart(a, jet, true)).toMatchObject({ onHandMilli: 2_000, reservedMilli: 1_000 });
    await take("tap-once-2");
    expect(await getPart(a, jet, true)).toMatchObject({ onHandMilli: 1_000, freeMilli: 0 });
    await expect(take("tap-once-3")).rejects.toThrow(`to job ${other.number} is reserved`);
    const view = await getPart(a, jet, true);
    expect(view?.moves.filter((move) => move.kind === "use").map((move) => move.job?.number)).toEqual([
      job.number,
      job.number,
    ]);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("gives the last one to one of two who tap at once", async () => {
    const jet = await part(a, "1");
    const jobs = [await inWork(), await inWork()];
    const taps = await Promise.allSettled(
      jobs.map((job) => useForJob(a, { partId: jet, jobId: job.jobId, quantityMilli: 1_000 })),
    );
    expect(taps.map((tap) => tap.status).sort()).toEqual(["fulfilled", "rejected"]);
    expect((await getPart(a, jet, true))?.onHandMilli).toBe(0);
  });

  it("is refused for a job that is not in work", async () => {
    const jet = await part(a, "1");
    const job = await oneJob(a);
    await expect(useForJob(a, { partId: jet, jobId: job.jobId, quantityMilli: 1_000 })).rejects.toMatchObject(
      { remedy: expect.stringContaining("Start work") },
    );
  });
});

it("jobs that are short of a part are named with it, in their own shop alone", async () => {
  const jet = await part(a, "1");
  const [first, second] = [await oneJob(a), await oneJob(a)];
  await reserve(first.jobId, jet, 1_000);
  await reserve(second.jobId, jet, 1_000);
  expect((await shortJobs(a, [jet])).get(jet)).toEqual([second.number]);
  expect((await shortJobs(b, [jet])).size).toBe(0);
});
