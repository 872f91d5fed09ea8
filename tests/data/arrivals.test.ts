import { beforeEach, describe, expect, it } from "vitest";
import { arrivalOfJob, getArrival, marksOn, standingArrival, wordsOnArrival } from "@/lib/data/arrivals/get";
import { recordArrival, signArrival } from "@/lib/data/arrivals/record";
import { arrivalToRecord } from "@/lib/data/arrivals/toRecord";
import { removeBike } from "@/lib/data/bikes/remove";
import { bookIn, bookingToJob } from "@/lib/data/bookings/bookIn";
import { firstTimesFor } from "@/lib/data/bookings/times";
import { removePhoto } from "@/lib/data/photos/change";
import { keepPhoto } from "@/lib/data/photos/keep";
import type { ShopHandle } from "@/lib/db/shop";
import { ArrivalSchema } from "@/lib/schemas/arrivals";
import { oneJob } from "../support/oneJob";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let jobId: number;
let bikeId: number;

const typed = (more: object = {}) =>
  ArrivalSchema.parse({
    odometerKm: "24180",
    fuelEighths: "3",
    keys: "2",
    accessories: "Tank bag, disc lock",
    words: "Coughs when it is opened gently",
    damages: {
      0: { side: "left", part: "tank", what: "dent", x: "150", y: "60", note: "thumb size" },
      1: { side: "right", part: "exhaust", what: "scratch" },
      2: { side: "left", part: "", what: "" },
    },
    ...more,
  });
const ofJob = (more: object = {}) => typed({ jobId: String(jobId), ...more });
const soon = (shop: ShopHandle, minutes: number) =>
  as(shop, { now: new Date(shop.now.getTime() + minutes * 60_000) });
const STROKES = "10,100 120,60 260,140 400,80";

beforeEach(async () => {
  ({ a, b } = await twoShops());
  ({ jobId } = await oneJob(a));
  ({ bikeId } = await a.read.job.findUniqueOrThrow({ where: { id: jobId }, select: { bikeId: true } }));
  await oneJob(b);
});

const files = { put: async () => {}, remove: async () => {} };
const picture = { large: new Uint8Array([1]), small: new Uint8Array([1]), width: 4, height: 3, hash: "h" };
const photo = (shop: ShopHandle, nounId: number, file: string) =>
  keepPhoto(shop, files, picture, { noun: "damage", nounId, file });

describe("a bike that comes in", () => {
  it("says so of its job once per key, gives its odometer to the bike, and is of this shop alone", async () => {
    const key = "4f7d8c52-93b8-4a74-9f0e-1f54c0a7b001";
    const id = await recordArrival(a, { ...ofJob(), key });
    expect(await recordArrival(a, { ...ofJob(), key })).toBe(id);
    expect(await a.read.arrival.count()).toBe(1);
    expect(await a.read.job.findUniqueOrThrow({ where: { id: jobId } })).toMatchObject({
      arrivedAt: a.now,
      odometerKm: 24180,
    });
    expect((await a.read.bike.findUniqueOrThrow({ where: { id: bikeId } })).odometerKm).toBe(24180);
    expect(await arrivalOfJob(a, jobId)).toMatchObject({
      id,
      fuelEighths: 3,
      keys: 2,
      damages: [
        { number: 1, side: "left", part: "tank", what: "dent", note: "thumb size" },
        { number: 2, side: "right", part: "exhaust", what: "scratch", x: null },
      ],
    });
    expect(await wordsOnArrival(a, bikeId)).toBe("Coughs when it is opened gently");
    expect(await getArrival(b, id)).toBeNull();
    expect(await b.read.job.findFirst({ where: { arrivedAt: { not: null } } })).toBeNull();
  });

  it("is drawn where it was touched, and where the part lies where it was only named", async () => {
    const id = await recordArrival(a, ofJob());
    const damages = (await getArrival(a, id))?.damages ?? [];
    expect(marksOn("left", damages)).toEqual([{ number: 1, x: 150, y: 60 }]);
    // 320 wide: the exhaust of the left side, 222 from its edge, is 98 from the edge of the right side.
    expect(marksOn("right", damages)).toEqual([{ number: 2, x: 98, y: 160 }]);
  });

  it("asks about an odometer that runs backwards, as every other reading does", async () => {
    await recordArrival(a, ofJob());
    const again = { ...typed({ bikeId: String(bikeId), odometerKm: "20000" }) };
    await expect(recordArrival(soon(a, 60), again)).rejects.toMatchObject({
      fields: { odometerKm: expect.stringContaining("24"), odometerRight: expect.anything() },
    });
    await recordArrival(soon(a, 60), { ...again, odometerRight: true });
    expect((await a.read.bike.findUniqueOrThrow({ where: { id: bikeId } })).odometerKm).toBe(20000);
  });

  it("of a booking without a known bike asks which, and goes to the job that the booking gets", async () => {
    const [time] = await firstTimesFor(a, 60);
    if (!time) throw new Error("No time works.");
    const slot = { bayId: time.bayId, staffId: time.staffId, startsAt: new Date(time.startsAt), minutes: 60 };
    const bookingId = await bookIn(a, {
      ...slot,
      guestName: "Halvard Moe",
      guestPhone: "",
      words: "runs hot",
    });
    const of = { bookingId: String(bookingId) };
    expect(await arrivalToRecord(a, { bookingId })).toMatchObject({
      bike: null,
      words: "runs hot",
      standing: null,
    });
    await expect(recordArrival(a, typed(of))).rejects.toMatchObject({
      fields: { bikeId: "Choose the bike." },
    });
    const id = await recordArrival(a, typed({ ...of, bikeId: String(bikeId) }));
    const booking = await a.read.booking.findUniqueOrThrow({ where: { id: bookingId } });
    expect(booking).toMatchObject({ bikeId, arrivedAt: a.now });
    await bookingToJob(a, { id: bookingId, version: booking.version, jobId });
    expect(await standingArrival(a, { jobId })).toBe(id);
    expect((await a.read.job.findUniqueOrThrow({ where: { id: jobId } })).arrivedAt).toEqual(a.now);
  });

  it("is refused for a job that is over, and keeps its bike from being removed", async () => {
    await recordArrival(a, ofJob());
    const { version } = await a.read.bike.findUniqueOrThrow({ where: { id: bikeId } });
    await expect(removeBike(a, { id: bikeId, version })).rejects.toThrow(/1 arrival/);
    await a.write((tx) => tx.job.update({ where: { id: jobId }, data: { state: "cancelled" } }));
    await expect(recordArrival(a, ofJob())).rejects.toMatchObject({ kind: "conflict" });
  });
});

describe("what was signed", () => {
  it("is frozen in the database itself, and corrected by a record in its place", async () => {
    const id = await recordArrival(a, ofJob());
    await signArrival(a, { id, version: 1, signedBy: "Oda Fenn", signature: STROKES });
    expect(await getArrival(a, id)).toMatchObject({
      signedBy: "Oda Fenn",
      signature: STROKES,
      signedAt: a.now,
    });
    await expect(
      signArrival(a, { id, version: 2, signedBy: "Somebody Else", signature: "" }),
    ).rejects.toMatchObject({ kind: "conflict" });
    const refused = (run: Parameters<ShopHandle["write"]>[0]) => expect(a.write(run)).rejects.toThrow();
    await refused((tx) => tx.arrival.update({ where: { id }, data: { signedBy: "Somebody Else" } }));
    await refused((tx) => tx.arrival.update({ where: { id }, data: { keys: 1 } }));
    await refused((tx) => tx.arrival.delete({ where: { id } }));
    await refused((tx) => tx.arrivalDamage.updateMany({ where: { arrivalId: id }, data: { what: "rust" } }));
    await refused((tx) =>
      tx.arrivalDamage.create({ data: { arrivalId: id, side: "left", part: "seat", what: "torn" } }),
    );
    const later = soon(a, 30);
    const anew = await recordArrival(
      later,
      typed({ replacesId: String(id), keys: "1", odometerKm: "24190" }),
    );
    expect(await getArrival(a, id)).toMatchObject({ keys: 2, replacedBy: { id: anew } });
    expect(await arrivalOfJob(a, jobId)).toMatchObject({ id: anew, keys: 1, signedAt: null });
    expect((await a.read.job.findUniqueOrThrow({ where: { id: jobId } })).odometerKm).toBe(24190);
    await expect(recordArrival(later, typed({ replacesId: String(id) }))).rejects.toMatchObject({
      kind: "conflict",
    });
  });

  it("keeps the photos of its marks as they are, and the record in its place shows them and takes more", async () => {
    const id = await recordArrival(a, ofJob());
    const [tank] = (await getArrival(a, id))?.damages ?? [];
    if (!tank) throw new Error("no mark");
    const first = await photo(a, tank.id, "first");
    await signArrival(a, { id, version: 1, signedBy: "Oda Fenn", signature: "" });
    await expect(photo(a, tank.id, "second")).rejects.toThrow(/is signed/);
    await expect(removePhoto(a, { id: first, version: 1 })).rejects.toThrow(/is signed/);
    const row = { side: "left", part: "tank", what: "dent", x: "150", y: "60", firstId: String(tank.id) };
    const anew = await recordArrival(
      soon(a, 30),
      typed({ replacesId: String(id), odometerKm: "", damages: { 0: row } }),
    );
    const [mark] = (await getArrival(a, anew))?.damages ?? [];
    expect(mark?.photos.map((one) => one.id)).toEqual([first]);
    const more = await photo(a, mark?.id ?? 0, "third");
    expect((await getArrival(a, anew))?.damages[0]?.photos.map((one) => one.id)).toEqual([first, more]);
    expect((await getArrival(a, id))?.damages[0]?.photos.map((one) => one.id)).toEqual([first]);
  });
});

describe("what is typed of an arrival", () => {
  it("drops rows without a word, and asks what is wrong with a place that was touched", () => {
    expect(typed().damages).toHaveLength(2);
    const wrong = ArrivalSchema.safeParse({
      damages: { 4: { side: "left", part: "seat", what: "", x: "10", y: "10" } },
    });
    expect(wrong.error?.issues.map(({ path }) => path.join("."))).toEqual(["damages.4.what"]);
    const many = Object.fromEntries(
      Array.from({ length: 31 }, (_, at) => [at, { side: "left", part: "seat", what: "torn" }]),
    );
    expect(ArrivalSchema.safeParse({ damages: many }).success).toBe(false);
    expect(ArrivalSchema.safeParse({ fuelEighths: "9" }).success).toBe(false);
  });
});
