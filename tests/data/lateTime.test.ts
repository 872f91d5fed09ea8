import { beforeAll, describe, expect, it } from "vitest";
import { cancelJob } from "@/lib/data/bookings/cancelJob";
import { finishJob } from "@/lib/data/jobs/finish";
import { handOver } from "@/lib/data/jobs/handOvers";
import { startTime, stopOnJob, stopTime } from "@/lib/data/jobs/time/run";
import { setWait } from "@/lib/data/jobs/waits";
import type { ShopHandle } from "@/lib/db/shop";
import type { Asking } from "@/lib/domain/refusal";
import { dayWords } from "@/lib/domain/schedule/days";
import type { LateSaid } from "@/lib/schemas/timeEntries";
import { jobNow, makeJob } from "../support/jobs";
import { as, type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
beforeAll(async () => {
  shops = await twoShops();
  await mate(shops.a, "Ilse");
  await mate(shops.a, "Lio Marr");
});

let weeks = 0;

/** Another Wednesday of shop a: 11:30 on its clock, the end of the usual shift at 16:30, and 19:00. */
function aDay(who?: ShopHandle["by"]) {
  const week = weeks++;
  const at = (text: string) => new Date(Date.parse(`2026-11-25T${text}:00+11:00`) + week * 7 * 86_400_000);
  const day = at("12:00").toISOString().slice(0, 10);
  const then = (text: string) => as(shops.a, { now: at(text), ...(who ? { by: who } : {}) });
  return { at, day, morning: then("11:30"), evening: then("19:00"), shiftEnds: at("16:30") };
}

async function mate(shop: ShopHandle, name: string): Promise<void> {
  const personId = `${name}-${shop.by.personId}`;
  const owner = await shop.read.staff.findUniqueOrThrow({ where: { id: shop.by.staffId ?? 0 } });
  await shop.write((tx) =>
    tx.staff.create({ data: { personId, name, role: "tuner", hours: owner.hours ?? {} } }),
  );
}

async function person(name: string): Promise<ShopHandle["by"]> {
  const { id, personId } = await shops.a.read.staff.findFirstOrThrow({ where: { name } });
  return { personId, name, role: "tuner", staffId: id };
}

/** A job on which all is done, and that changed no setting: one look finishes it. */
async function doneJob(shop: ShopHandle) {
  const job = await makeJob(shop);
  await shop.write(async (tx) => {
    await tx.step.deleteMany({ where: { jobId: job.id, kind: "ride" } });
    await tx.step.updateMany({ where: { jobId: job.id }, data: { state: "done" } });
    await tx.holdPoint.updateMany({ where: { step: { jobId: job.id } }, data: { passed: true } });
    await tx.job.update({ where: { id: job.id }, data: { state: "inWork" } });
  });
  return job;
}

const entryOn = (shop: ShopHandle, id: number) => shop.read.timeEntry.findUniqueOrThrow({ where: { id } });

/** Every act that ends running time besides stopping it, on a job. */
const ACTS: Readonly<Record<string, (shop: ShopHandle, jobId: number, said: LateSaid) => Promise<unknown>>> =
  {
    finishing: async (shop, jobId, said) => {
      const { version } = await jobNow(shop, jobId);
      const look = { values: {}, hows: {}, odometerKm: null, note: "", cautions: "on" } as const;
      return finishJob(shop, { jobId, version, ...look, ...said });
    },
    waiting: (shop, jobId, said) =>
      setWait(shop, { jobId, reason: "parts", untilOn: null, note: "", ...said }),
    "handing over": async (shop, jobId, said) => {
      const to = await shop.read.staff.findFirstOrThrow({ where: { name: "Ilse" } });
      return handOver(shop, { jobId, toId: to.id, note: "The bowl is off.", ...said });
    },
    cancelling: async (shop, jobId, said) => {
      const { version } = await jobNow(shop, jobId);
      return cancelJob(shop, { jobId, version, reason: "Sold the bike", ...said });
    },
  };

describe("an act that ends time which ran past the shift", () => {
  it.each(Object.entries(ACTS))(
    "%s asks, changes nothing until then, and does as it is told",
    async (_, act) => {
      const { a, b } = shops;
      for (const how of ["now", "shift", "other"] as const) {
        const { at, day, morning, evening, shiftEnds } = aDay();
        const job = await doneJob(morning);
        const { entryId } = await startTime(morning, { jobId: job.id });
        const before = await jobNow(a, job.id);
        const asked = (await act(evening, job.id, {}).catch((cause) => cause)) as Asking;
        expect(asked.message).toContain(`past the end of the shift at ${dayWords(day, "en-AU")}, 16:30`);
        expect(asked.asks).toMatchObject([
          { name: `late.${entryId}`, moment: { name: `lateEnds.${entryId}`, initial: `${day}T16:30` } },
        ]);
        expect(asked.fields).toEqual({});
        expect(asked.asks[0]?.options.map((one) => one.value)).toEqual(["now", "shift", "other"]);
        expect(await jobNow(a, job.id)).toEqual(before);
        expect((await entryOn(a, entryId)).endedAt).toBeNull();
        const lateEnds = { [entryId]: how === "other" ? `${day}T17:45` : "" };
        await act(evening, job.id, { late: { [entryId]: how }, lateEnds });
        const endedAt = { now: evening.now, shift: shiftEnds, other: at("17:45") }[how];
        expect((await entryOn(a, entryId)).endedAt).toEqual(endedAt);
        // An end that was said is a correction, with what stood there before.
        expect(await a.read.timeCorrection.findMany({ where: { entryId } })).toMatchObject(
          how === "now" ? [] : [{ fromEnded: null, toEnded: endedAt, staffId: a.by.staffId }],
        );
      }
      expect(await a.read.timeEntry.count({ where: { endedAt: null } })).toBe(0);
      expect(await b.read.timeEntry.count()).toBe(0);
    },
  );

  it("asks again where the end that was said cannot be, with what is wrong beside it", async () => {
    const { a } = shops;
    const { day, morning, evening } = aDay();
    const job = await doneJob(morning);
    const { entryId } = await startTime(morning, { jobId: job.id });
    for (const [end, words] of [
      [`${day}T23:00`, /future/],
      [`${day}T09:00`, /After the start/],
      ["", "Enter a day and a time."],
    ] as const)
      await expect(
        setWait(evening, {
          jobId: job.id,
          reason: "parts",
          untilOn: null,
          note: "",
          late: { [entryId]: "other" },
          lateEnds: { [entryId]: end },
        }),
      ).rejects.toMatchObject({
        fields: { [`lateEnds.${entryId}`]: expect.stringMatching(words) },
        asks: [{ name: `late.${entryId}` }],
      });
    expect(await a.read.jobWait.count({ where: { jobId: job.id } })).toBe(0);
    expect((await entryOn(a, entryId)).endedAt).toBeNull();
    await stopTime(evening, { entryId, worked: true });
  });

  it("asks whoever finishes about a colleague's as well, by name: now, or the end of the shift", async () => {
    const { a, b } = shops;
    const [lio, ilse] = [await person("Lio Marr"), await person("Ilse")];
    const { day, morning, evening, shiftEnds } = aDay(lio);
    const job = await doneJob(morning);
    const mine = await startTime(morning, { jobId: job.id });
    const theirs = await startTime(as(morning, { by: ilse }), { jobId: job.id });
    const finish = async (said: LateSaid) => ACTS.finishing?.(evening, job.id, said);
    const asked = (await finish({}).catch((cause) => cause)) as Asking;
    expect(asked.message).toContain("So has Ilse’s.");
    expect(asked.asks.map((ask) => ask.options.map((one) => one.value))).toEqual([
      ["now", "shift", "other"],
      ["now", "shift"],
    ]);
    const own = { [mine.entryId]: "now" } as const;
    const open = { fields: { [`late.${theirs.entryId}`]: "Say when it ended." } };
    await expect(finish({ late: own })).rejects.toMatchObject(open);
    // A tuner corrects nobody else's time.
    const lateEnds = { [theirs.entryId]: `${day}T12:00` };
    await expect(finish({ late: { ...own, [theirs.entryId]: "other" }, lateEnds })).rejects.toMatchObject(
      open,
    );
    await finish({ late: { ...own, [theirs.entryId]: "shift" } });
    expect((await entryOn(a, mine.entryId)).endedAt).toEqual(evening.now);
    expect(await entryOn(a, theirs.entryId)).toMatchObject({
      endedAt: shiftEnds,
      reason: "Forgot to stop; said by Lio Marr",
    });
    expect((await jobNow(a, job.id)).state).toBe("ready");
    expect(await b.read.job.count()).toBe(0);
  });

  it("takes a device's word too, for time that it started without a connection", async () => {
    const { morning, evening } = aDay();
    const job = await doneJob(morning);
    const { entryId } = await startTime(morning, { jobId: job.id });
    await expect(stopOnJob(evening, { jobId: job.id })).rejects.toThrow(/past the end of the shift/);
    await stopOnJob(evening, { jobId: job.id, worked: true });
    expect((await entryOn(shops.a, entryId)).endedAt).toEqual(evening.now);
  });
});
