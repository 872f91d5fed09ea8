import { beforeEach, describe, expect, it } from "vitest";
import { saveSheet } from "@/lib/data/bikes/sheets";
import { cancelJob } from "@/lib/data/bookings/cancelJob";
import { getCard } from "@/lib/data/jobs/card";
import { finishJob } from "@/lib/data/jobs/finish";
import { accountForOne } from "@/lib/data/jobs/partsLeft";
import { passStep } from "@/lib/data/jobs/pass";
import { draftOf, sheetsOfJob } from "@/lib/data/jobs/sheets";
import { takeBackPass } from "@/lib/data/jobs/takeBack";
import { startTime } from "@/lib/data/jobs/time/run";
import { handoverForPaper } from "@/lib/data/papers/handover";
import { recordRefund } from "@/lib/data/payments/record";
import { recordRide } from "@/lib/data/rides/record";
import { recordMove } from "@/lib/data/stock/moves";
import { reserveIn } from "@/lib/data/stock/reservations";
import { getToday } from "@/lib/data/today/today";
import type { ShopHandle } from "@/lib/db/shop";
import { jobNow, makeJob } from "../support/jobs";
import { as, twoShops } from "../support/shops";

const value = (setting: string, of: number) => ({ carburettor: 1, setting, value: of, how: "read" as const });
const plain = (values: readonly { setting: string; value: number }[]) =>
  Object.fromEntries(values.map((one) => [one.setting, one.value]));

/** Another job on a bike, without a target of its own. */
async function secondJob(shop: ShopHandle, bikeId: number) {
  const job = await makeJob(shop);
  await shop.write(async (tx) => {
    await tx.settingSheet.deleteMany({ where: { jobId: job.id } });
    await tx.job.update({ where: { id: job.id }, data: { bikeId } });
  });
  return { ...job, bikeId };
}

async function makes(shop: ShopHandle, jobId: number, settings: string[]) {
  await shop.write((tx) =>
    tx.step.updateMany({ where: { jobId, kind: "operation" }, data: { makes: settings } }),
  );
}

/** A reading of a hold point that measures a setting, as the card keeps it. */
async function measured(shop: ShopHandle, holdPointId: number, measures: string, of: number) {
  await shop.write(async (tx) => {
    await tx.holdPoint.update({
      where: { id: holdPointId },
      data: { measures, unit: "rpm", low: null, high: null },
    });
    await tx.reading.create({ data: { holdPointId, value: of, inside: true, at: shop.now, staffId: null } });
  });
}

async function stocked(shop: ShopHandle, code: string): Promise<number> {
  const part = await shop.write((tx) =>
    tx.part.create({
      data: {
        code,
        name: `Main jet ${code}`,
        kind: "jet",
        unit: "each",
        searchKey: code,
        createdAt: shop.now,
      },
    }),
  );
  await recordMove(shop, { partId: part.id, kind: "receipt", quantityMilli: 5000, unitCostE4: 40_000 });
  return part.id;
}

async function doneButRide(shop: ShopHandle) {
  const job = await makeJob(shop);
  await shop.write(async (tx) => {
    await tx.step.updateMany({ where: { jobId: job.id, kind: { not: "ride" } }, data: { state: "done" } });
    await tx.holdPoint.updateMany({ where: { step: { jobId: job.id } }, data: { passed: true } });
    await tx.job.update({ where: { id: job.id }, data: { state: "inWork" } });
  });
  return job;
}

const at = async (shop: ShopHandle, jobId: number) => ({
  jobId,
  version: (await jobNow(shop, jobId)).version,
});

const later = (shop: ShopHandle, minutes: number) =>
  as(shop, { now: new Date(shop.now.getTime() + minutes * 60_000) });

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
});

describe("what a job finds and leaves", () => {
  it("starts from the newest sheet of another job, as left too, and never from an older as-found one", async () => {
    const first = await makeJob(a);
    const asFound = [value("mainJet", 137.5), value("pilotJet", 42.5), value("idleSpeedRpm", 1250)];
    await saveSheet(a, { bikeId: first.bikeId, jobId: first.id, kind: "asFound", values: asFound });
    const left = [value("mainJet", 145), value("idleSpeedRpm", 1400)];
    await saveSheet(a, { bikeId: first.bikeId, jobId: first.id, kind: "asLeft", values: left });
    const second = await secondJob(a, first.bikeId);

    const sheets = await sheetsOfJob(a.read, second);
    // The as-left sheet says nothing of the pilot jet: the older sheet's is still fitted.
    expect(plain(sheets.asFound?.values ?? [])).toEqual({ mainJet: 145, pilotJet: 42.5, idleSpeedRpm: 1400 });
    expect(plain(sheets.fitted)).toEqual({ mainJet: 145, pilotJet: 42.5, idleSpeedRpm: 1400 });
    expect(plain(await draftOf(a, first.bikeId, second.id, "asLeft"))).toMatchObject({ mainJet: 145 });
    // The first job's own papers still say what it found.
    const own = await sheetsOfJob(a.read, first);
    expect(own.asFound?.values.find((one) => one.setting === "mainJet")?.value).toBe(137.5);
  });

  it("does not bring a target's older settings back that no step makes", async () => {
    const first = await makeJob(a);
    const second = await secondJob(a, first.bikeId);
    await makes(a, second.id, ["mainJet"]);
    // Quoted before the first job was done, from what was fitted then.
    const quoted = [value("mainJet", 150), value("pilotJet", 42.5), value("idleSpeedRpm", 1250)];
    await saveSheet(a, {
      bikeId: first.bikeId,
      jobId: second.id,
      kind: "target",
      values: quoted,
      calculation: { carburettors: [{ settings: [{ key: "mainJet", value: 150, from: 140, because: [] }] }] },
    });
    const left = [value("mainJet", 145), value("pilotJet", 47.5), value("idleSpeedRpm", 1400)];
    await saveSheet(a, { bikeId: first.bikeId, jobId: first.id, kind: "asLeft", values: left });

    const sheets = await sheetsOfJob(a.read, second);
    expect(plain(sheets.fitted)).toEqual({ mainJet: 150, pilotJet: 47.5, idleSpeedRpm: 1400 });
    const card = await getCard(a, second.id);
    expect(card?.steps.flatMap((step) => step.settings)).toMatchObject([{ from: 145, to: 150 }]);
  });

  it("takes a reading on the card over what was delivered or noted before", async () => {
    const job = await makeJob(a);
    await saveSheet(a, { bikeId: job.bikeId, kind: "asFound", values: [value("idleSpeedRpm", 1250)] });
    await measured(a, job.reading, "idleSpeedRpm", 1400);
    const sheets = await sheetsOfJob(a.read, job);
    expect(sheets.measured).toEqual([
      { carburettor: 1, setting: "idleSpeedRpm", value: 1400, how: "measured" },
    ]);
    expect(sheets.fitted.find((one) => one.setting === "idleSpeedRpm")).toMatchObject({
      value: 1400,
      how: "measured",
    });
    // The same ids in the other shop know nothing of it.
    await makeJob(b);
    expect((await sheetsOfJob(b.read, job)).measured).toEqual([]);
  });
});

describe("an odometer", () => {
  it("typed at a ride is kept whatever the ride's outcome", async () => {
    const job = await doneButRide(a);
    const { version } = await jobNow(a, job.id);
    await recordRide(a, {
      jobId: job.id,
      version,
      good: "no",
      odometerKm: 24_212,
      note: "",
      observations: [{ throttle: "full", condition: "steady", engine: "hot", sign: "lean", note: "" }],
    });
    const bike = await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } });
    expect(bike.odometerKm).toBe(24_212);
  });

  it("typed at the end of work without a sheet is the job's, on its handover and its invoice", async () => {
    const job = await doneButRide(a);
    await a.write(async (tx) => {
      await tx.step.deleteMany({ where: { jobId: job.id, kind: "ride" } });
      await tx.job.update({ where: { id: job.id }, data: { odometerKm: 24_000 } });
    });
    const end = { values: {}, hows: {}, note: "", cautions: "on" as const };
    await finishJob(a, { ...(await at(a, job.id)), ...end, odometerKm: 24_180 });
    expect((await handoverForPaper(a, job.id))?.odometerKm).toBe(24_180);
    expect((await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } })).odometerKm).toBe(24_180);
  });

  it("lower than before, or far too high, is asked about and never replaces a reading in silence", async () => {
    const job = await makeJob(a);
    const save = (odometerKm: number, odometerRight?: boolean) =>
      saveSheet(a, {
        bikeId: job.bikeId,
        kind: "asFound",
        values: [value("mainJet", 140)],
        odometerKm,
        odometerRight,
      });
    await save(24_000);
    await expect(save(2_400)).rejects.toMatchObject({ fields: { odometerRight: expect.any(String) } });
    await expect(save(240_000)).rejects.toMatchObject({ fields: { odometerRight: expect.any(String) } });
    expect((await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } })).odometerKm).toBe(24_000);
    await save(2_400, true);
    expect((await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } })).odometerKm).toBe(2_400);
    const told = await a.read.auditEntry.findFirst({
      where: { act: "odometer confirmed" },
      orderBy: { id: "desc" },
    });
    expect(told).not.toBeNull();
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { units: "uk" } }));
    await save(24_186, true);
    // 15,028 miles, as 24,186 km are read: typed again, they are no lower reading.
    await save(24_185);
    expect((await a.read.bike.findUniqueOrThrow({ where: { id: job.bikeId } })).odometerKm).toBe(24_186);
    await expect(save(1_609)).rejects.toThrow(/mi is lower than the .* mi read before/u);
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { units: "metric" } }));
  });
});

describe("a reserved part", () => {
  it("is accounted for before its step is passed, and before the job is finished", async () => {
    const job = await makeJob(a);
    const [first, second, , rideStep] = job.steps as [number, number, number, number];
    const jet = await stocked(a, "RM-142.5");
    const reserved = (stepId?: number) =>
      a.write((tx) => reserveIn(tx, a, { jobId: job.id, stepId, partId: jet, wantedMilli: 1000 }));
    const onStep = await reserved(first);
    const loose = await reserved();
    const pass = (parts: readonly { reservationId: number; used: boolean; why: string }[]) =>
      passStep(a, { stepId: first, version: 1, readings: [], checks: [], signatures: [], parts });
    await expect(pass([])).rejects.toMatchObject({
      fields: { [`parts.${onStep.reservationId}`]: expect.any(String) },
    });
    const said = { reservationId: onStep.reservationId, used: false };
    await expect(pass([{ ...said, why: "" }])).rejects.toThrow(/Say why/);
    await pass([{ ...said, why: "The old one is as good." }]);
    const left = await a.read.reservation.findUniqueOrThrow({ where: { id: onStep.reservationId } });
    expect(left).toMatchObject({ state: "released", reservedMilli: 0, unusedWhy: "The old one is as good." });

    await a.write(async (tx) => {
      await tx.step.updateMany({
        where: { id: { in: [second, ...job.steps.slice(2)] } },
        data: { state: "done" },
      });
      await tx.step.update({ where: { id: rideStep }, data: { state: "done" } });
      await tx.holdPoint.updateMany({ where: { step: { jobId: job.id } }, data: { passed: true } });
    });
    const whole = { "1": { mainJet: 142.5, clipPosition: 3, mixtureScrewTurns: 2.25, idleSpeedRpm: 1400 } };
    const finish = async () =>
      finishJob(a, {
        ...(await at(a, job.id)),
        values: whole,
        hows: {},
        rest: "read",
        odometerKm: null,
        note: "",
        cautions: "on",
      });
    await expect(finish()).rejects.toThrow(/reserved for this job and not accounted for/);
    await accountForOne(a, { jobId: job.id, reservationId: loose.reservationId, used: true, why: "" });
    await finish();
    const part = await a.read.part.findUniqueOrThrow({ where: { id: jet } });
    expect(part).toMatchObject({ onHandMilli: 4000, reservedMilli: 0 });
  });
});

describe("a pass", () => {
  it("can be taken back until the next act", async () => {
    const job = await makeJob(a);
    const [first, second] = job.steps as [number, number];
    const none = { readings: [], checks: [], signatures: [] };
    await passStep(a, { stepId: first, version: 1, ...none });
    await takeBackPass(a, { stepId: first, version: 2 });
    await passStep(a, { stepId: first, version: 3, ...none });
    await passStep(a, {
      stepId: second,
      version: 1,
      ...none,
      readings: [{ holdPointId: job.reading, value: 4 }],
    });
    await expect(takeBackPass(a, { stepId: first, version: 4 })).rejects.toThrow(/begun after it/);
    const events = await a.read.auditEntry.count({ where: { act: "pass taken back" } });
    expect(events).toBe(1);
  });

  it("reads a unit that was typed or chosen, and refuses what cannot be", async () => {
    const job = await makeJob(a);
    const [first, second] = job.steps as [number, number];
    const none = { checks: [], signatures: [] };
    await passStep(a, { stepId: first, version: 1, readings: [], ...none });
    const read = (value: number, unit = "") =>
      passStep(a, {
        stepId: second,
        version: 1,
        readings: [{ holdPointId: job.reading, value, unit }],
        ...none,
      });
    await expect(read(-3)).rejects.toThrow(/below nothing/);
    await expect(read(3, "kPa")).rejects.toThrow(/no unit of this reading/);
    await read(0.122, "in");
    const kept = await a.read.reading.findFirstOrThrow({
      where: { holdPointId: job.reading },
      orderBy: { id: "desc" },
    });
    // 1 in = 25.4 mm exactly (international yard and pound, 1959).
    expect(kept).toMatchObject({ value: 3.0988, inside: true });
  });
});

describe("finishing", () => {
  it("shows everything that is missing at once, and takes one answer for the rest", async () => {
    const job = await doneButRide(a);
    await recordRide(a, {
      ...(await at(a, job.id)),
      good: "yes",
      odometerKm: null,
      note: "",
      observations: [],
    });
    const values = { "1": { mainJet: 142.5, pilotJet: null, idleSpeedRpm: 1400 } };
    const typed = { values, hows: {}, odometerKm: null, note: "" };
    await expect(
      finishJob(a, { ...(await at(a, job.id)), ...typed, cautions: undefined }),
    ).rejects.toMatchObject({
      fields: {
        "values.1.pilotJet": expect.any(String),
        rest: expect.any(String),
        cautions: expect.any(String),
      },
    });
    const whole = {
      "1": { mainJet: 142.5, clipPosition: 3, mixtureScrewTurns: 2.25, idleSpeedRpm: 1400 },
    };
    const { sheetId } = await finishJob(a, {
      ...(await at(a, job.id)),
      values: whole,
      hows: { "1": { idleSpeedRpm: "measured" } },
      rest: "read",
      odometerKm: null,
      note: "",
      cautions: "on",
    });
    const kept = await a.read.settingValue.findMany({ where: { sheetId }, orderBy: { id: "asc" } });
    expect(Object.fromEntries(kept.map((one) => [one.setting, one.how]))).toEqual({
      mainJet: "read",
      clipPosition: "read",
      mixtureScrewTurns: "read",
      idleSpeedRpm: "measured",
    });
  });
});

describe("a cancelled job", () => {
  it("tells the customer of a booking to come, frees the bay, and leaves its deposit to be given back", async () => {
    const job = await makeJob(a, false);
    const day = 86_400_000;
    const bookingId = await a.write(async (tx) => {
      await tx.customer.update({ where: { id: job.customerId }, data: { email: "oda@example.net" } });
      const bay = await tx.bay.create({ data: { name: "Bay nine" } });
      const staff = await tx.staff.findFirstOrThrow({ orderBy: { id: "asc" } });
      const startsAt = new Date(a.now.getTime() + day);
      const made = await tx.booking.create({
        data: {
          jobId: job.id,
          bayId: bay.id,
          staffId: staff.id,
          startsAt,
          endsAt: new Date(startsAt.getTime() + 3_600_000),
        },
      });
      await tx.payment.create({
        data: {
          kind: "deposit",
          jobId: job.id,
          method: "card",
          amountMinor: 12_000,
          roundingMinor: 0,
          paidOn: "2026-11-01",
          reference: "",
          at: a.now,
        },
      });
      return made.id;
    });
    const { version } = await jobNow(a, job.id);
    await cancelJob(a, { jobId: job.id, version, reason: "The bike was sold." });
    expect((await a.read.booking.findUniqueOrThrow({ where: { id: bookingId } })).state).toBe("cancelled");
    const mail = await a.read.mail.findFirstOrThrow({ orderBy: { id: "desc" } });
    expect(mail).toMatchObject({ to: "oda@example.net", subject: expect.stringContaining("Cancelled") });
    const sees = { quotes: true, invoices: true, stock: true };
    expect((await getToday(a, sees)).toGiveBack).toMatchObject([{ id: job.id, depositLeftMinor: 12_000 }]);
    expect((await getToday(b, sees)).toGiveBack).toEqual([]);
    await recordRefund(a, {
      jobId: job.id,
      amountMinor: 12_000,
      method: "card",
      paidOn: "2026-11-02",
      reference: "Sold",
    });
    expect((await getToday(a, sees)).toGiveBack).toEqual([]);
  });

  it("is done in its bay with the work that was begun, from then on free, and told of only what was to come", async () => {
    const job = await makeJob(a);
    const hour = 3_600_000;
    const at = (hours: number) => new Date(a.now.getTime() + hours * hour);
    const ids = await a.write(async (tx) => {
      await tx.customer.update({ where: { id: job.customerId }, data: { email: "oda@example.net" } });
      await tx.job.update({ where: { id: job.id }, data: { state: "inWork", startedAt: at(-26) } });
      const bay = await tx.bay.create({ data: { name: "Bay ten" } });
      const staff = await tx.staff.findFirstOrThrow({ orderBy: { id: "asc" } });
      const made: number[] = [];
      for (const [from, to] of [
        [-26, -24],
        [-1, 3],
        [30, 32],
      ] as const) {
        const where = { jobId: job.id, bayId: bay.id, staffId: staff.id };
        const one = await tx.booking.create({ data: { ...where, startsAt: at(from), endsAt: at(to) } });
        made.push(one.id);
      }
      return made;
    });
    const mails = await a.read.mail.count();
    const { version } = await jobNow(a, job.id);
    await cancelJob(a, { jobId: job.id, version, reason: "The frame is cracked." });
    const rows = await a.read.booking.findMany({ where: { id: { in: ids } }, orderBy: { id: "asc" } });
    expect(rows.map((row) => [row.state, row.endsAt])).toEqual([
      ["done", at(-24)],
      ["done", a.now],
      ["cancelled", at(32)],
    ]);
    expect(await a.read.mail.count()).toBe(mails + 1);
    expect(await b.read.booking.count()).toBe(0);
  });

  it("or a finished one does not close time that was forgotten: it asks first", async () => {
    const job = await makeJob(a);
    await startTime(a, { jobId: job.id, stepId: job.steps[0] });
    const tomorrow = later(a, 35 * 60);
    const { version } = await jobNow(a, job.id);
    await expect(cancelJob(tomorrow, { jobId: job.id, version, reason: "Sold" })).rejects.toThrow(
      /Your time has run since/,
    );
    expect(await a.read.timeEntry.count({ where: { jobId: job.id, endedAt: null } })).toBe(1);
  });
});
