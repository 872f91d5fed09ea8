import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { offerPart } from "@/lib/data/orders/offers";
import { createPart } from "@/lib/data/parts/save";
import { approveCount } from "@/lib/data/stock/approveCounts";
import { moveBetweenBins } from "@/lib/data/stock/betweenBins";
import {
  countAgain,
  enterCount,
  getCount,
  listBins,
  listOpenCounts,
  startCount,
} from "@/lib/data/stock/binCounts";
import { correctMove } from "@/lib/data/stock/correct";
import { monthEndsBefore, stockFigures, usagePerMonth } from "@/lib/data/stock/figures";
import { findScanned } from "@/lib/data/stock/find";
import { recordMove } from "@/lib/data/stock/moves";
import { getPart, listParts, provePart } from "@/lib/data/stock/parts";
import { reserveIn } from "@/lib/data/stock/reservations";
import { addSubstitute, supplyOf } from "@/lib/data/stock/shelf";
import type { ShopHandle } from "@/lib/db/shop";
import { PartSupplierSchema } from "@/lib/schemas/orders";
import { NewPartSchema } from "@/lib/schemas/parts";
import { oneJob } from "../support/oneJob";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let made = 0;
const part = (shop: ShopHandle, more: Record<string, string> = {}) =>
  createPart(
    shop,
    NewPartSchema.parse({ code: `BC-${++made}`, name: "Spring", kind: "other", unit: "each", ...more }),
  );
const onHand = async (shop: ShopHandle, id: number) => (await getPart(shop, id, true))?.onHandMilli;
const sheet = async (shop: ShopHandle, id: number) => {
  const view = await getCount(shop, id);
  if (!view) throw new Error("no such count");
  return view;
};

beforeAll(async () => {
  ({ a, b } = await twoShops());
});

describe("counting a bin", () => {
  it("is blind: nothing of the ledger is in it until it is counted", async () => {
    const id = await part(a, { bin: "C1", opening: "7" });
    await part(a, { bin: "C1", opening: "3" });
    const count = await startCount(a, "C1");
    expect(await startCount(a, "C1")).toBe(count);
    const view = await sheet(a, count);
    expect(view.lines).toHaveLength(2);
    expect(view.lines.every((line) => line.seenMilli === null && line.varianceMilli === null)).toBe(true);
    expect(JSON.stringify(view)).not.toContain("7000");
    await enterCount(a, {
      sheetId: count,
      version: view.version,
      counted: [{ partId: id, countedMilli: 6_000 }],
    });
    const counted = await sheet(a, count);
    expect(counted.lines.map((line) => line.varianceMilli)).toEqual([-1_000, null]);
    expect(await onHand(a, id)).toBe(7_000);
    expect((await listOpenCounts(b)).length).toBe(0);
  });

  it("is written once it is approved, as moves of the kind count that leave later moves alone", async () => {
    const less = await part(a, { bin: "C2", opening: "7" });
    const more = await part(a, { bin: "C2", opening: "3" });
    const out = await part(a, { bin: "C2", opening: "3" });
    const count = await startCount(a, "C2");
    await enterCount(a, {
      sheetId: count,
      version: 1,
      counted: [
        { partId: less, countedMilli: 5_000 },
        { partId: more, countedMilli: 4_000 },
        { partId: out, countedMilli: 0 },
      ],
    });
    await recordMove(a, { partId: less, kind: "receipt", quantityMilli: 10_000 });
    const approve = { sheetId: count, version: 2, leaveOut: [out], key: "approve-c2-1" };
    expect(await approveCount(a, approve)).toBe(2);
    expect(await approveCount(a, approve)).toBe(2);
    expect(await onHand(a, less)).toBe(15_000);
    expect(await onHand(a, more)).toBe(4_000);
    expect(await onHand(a, out)).toBe(3_000);
    expect((await getPart(a, less, true))?.moves[0]).toMatchObject({
      kind: "count",
      quantityMilli: -2_000,
      why: "bin C2",
    });
    await expect(approveCount(a, { ...approve, version: 3, key: undefined })).rejects.toMatchObject({
      kind: "conflict",
    });
    expect((await listBins(a)).rows.find((row) => row.bin === "C2")?.countedAt).toEqual(a.now);
  });

  it("is approved by owner and desk alone", async () => {
    const id = await part(a, { bin: "C3", opening: "2" });
    const count = await startCount(a, "C3");
    const tuner = as(a, { by: { ...a.by, role: "tuner" } });
    await enterCount(tuner, { sheetId: count, version: 1, counted: [{ partId: id, countedMilli: 1_000 }] });
    await expect(approveCount(tuner, { sheetId: count, version: 2, leaveOut: [] })).rejects.toMatchObject({
      kind: "forbidden",
    });
    expect(await onHand(a, id)).toBe(2_000);
    const desk = as(a, { by: { ...a.by, role: "desk" } });
    expect(await approveCount(desk, { sheetId: count, version: 2, leaveOut: [] })).toBe(1);
  });

  it("makes the newest reservation short where less lies there, and refuses a broken piece by name", async () => {
    const id = await part(a, { bin: "C4", opening: "4" });
    const [older, newer] = [await oneJob(a), await oneJob(a)];
    for (const job of [older, newer])
      await a.write((tx) => reserveIn(tx, a, { jobId: job.jobId, partId: id, wantedMilli: 2_000 }));
    const count = await startCount(a, "C4");
    await expect(
      enterCount(a, { sheetId: count, version: 1, counted: [{ partId: id, countedMilli: 1_500 }] }),
    ).rejects.toThrow(/BC-\d+: .*pieces/);
    await enterCount(a, { sheetId: count, version: 1, counted: [{ partId: id, countedMilli: 3_000 }] });
    await approveCount(a, { sheetId: count, version: 2, leaveOut: [] });
    const view = await getPart(a, id, true);
    expect(
      view?.reservations.map((reservation) => [reservation.job.number, reservation.reservedMilli]),
    ).toEqual([
      [older.number, 2_000],
      [newer.number, 1_000],
    ]);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("can be sent back to be done again, blind as before", async () => {
    const id = await part(a, { bin: "C5", opening: "4" });
    const count = await startCount(a, "C5");
    await enterCount(a, { sheetId: count, version: 1, counted: [{ partId: id, countedMilli: 3_000 }] });
    await countAgain(a, { sheetId: count, version: 2 });
    expect(await sheet(a, count)).toMatchObject({
      state: "open",
      lines: [{ countedMilli: null, seenMilli: null }],
    });
  });
});

describe("putting a move right", () => {
  it("leaves the wrong move and writes the difference on its day", async () => {
    const id = await part(a, { opening: "2" });
    const day = new Date("2026-11-20T02:00:00Z");
    const { moveId } = await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 10_000, at: day });
    await correctMove(a, { moveId, rightMilli: 9_000, why: "miscounted" });
    const view = await getPart(a, id, true);
    expect(view?.moves.map((move) => [move.kind, move.quantityMilli])).toEqual([
      ["count", -1_000],
      ["receipt", 10_000],
      ["opening", 2_000],
    ]);
    expect(view?.moves[0]).toMatchObject({
      at: day,
      writtenAt: a.now,
      why: `puts move ${moveId} right: miscounted`,
    });
    expect(await provePart(a, id)).toEqual({ ledgerMilli: 11_000, onHandMilli: 11_000 });
    await expect(
      a.write((tx) => tx.move.update({ where: { id: moveId }, data: { quantityMilli: 9_000 } })),
    ).rejects.toThrow();
    expect((await getPart(a, id, true))?.moves[1]?.quantityMilli).toBe(10_000);
  });

  it("gives a job back what it did not use, and refuses a day ahead", async () => {
    const id = await part(a, { opening: "5" });
    const job = await oneJob(a);
    const { moveId } = await recordMove(a, {
      partId: id,
      kind: "use",
      quantityMilli: 3_000,
      jobId: job.jobId,
    });
    await correctMove(a, { moveId, rightMilli: 1_000, why: "two went back" });
    expect((await getPart(a, id, true))?.moves[0]).toMatchObject({
      kind: "returnToStock",
      quantityMilli: 2_000,
      job: { number: job.number },
    });
    await expect(
      recordMove(a, {
        partId: id,
        kind: "receipt",
        quantityMilli: 1_000,
        at: new Date("2027-01-01T00:00:00Z"),
      }),
    ).rejects.toMatchObject({
      remedy: expect.stringContaining("today at the latest"),
    });
  });
});

describe("finding a part", () => {
  it("by code, by size in any writing, by words, by any supplier's code, by a scanned label", async () => {
    const { a: fresh, b: other } = await twoShops();
    const jet = { kind: "jet", family: "Round main", convention: "bore", name: "Main jet" };
    const id = await part(fresh, {
      ...jet,
      code: "RM-122.5",
      size: "122.5",
      supplier: "Marl",
      supplierCode: "rm1225",
    });
    await part(fresh, { ...jet, code: "RM-125", size: "125" });
    await offerPart(
      fresh,
      PartSupplierSchema.parse({
        partId: String(id),
        supplier: "Ridge Brass",
        code: "X/77-Ø",
        pack: "",
        least: "",
        leadDays: "",
      }),
    );
    for (const q of ["122.5", "122,5", "#122.5", "main 122.5", "rm-122", "rm1225", "x/77"])
      expect(
        (await listParts(fresh, { q })).rows.map((row) => row.id),
        q,
      ).toEqual([id]);
    expect((await listParts(other, { q: "122.5" })).rows).toEqual([]);
    for (const scanned of ["RM-122.5", "rm1225", "X/77-Ø", "RM-122.5\r\n"])
      expect(
        (await findScanned(fresh, scanned)).map((row) => row.id),
        scanned,
      ).toEqual([id]);
    expect(await findScanned(fresh, "RM-999")).toEqual([]);
  });
});

describe("the shelf", () => {
  it("moves a part to another bin, and notes what does in its place", async () => {
    const id = await part(a, { bin: "D1", opening: "1" });
    const other = await part(a, { code: "BC-other" });
    const move = { partId: id, from: "D1", to: "D2", quantityMilli: 1_000, home: { version: 1 } };
    await moveBetweenBins(a, move);
    expect((await listParts(a, { q: "d2" })).rows.map((row) => row.id)).toContain(id);
    await expect(moveBetweenBins(a, { ...move, from: "D2", to: "D3" })).rejects.toMatchObject({
      kind: "conflict",
    });
    await addSubstitute(a, { partId: id, code: "BC-other", note: "half a size up" });
    expect((await supplyOf(a, id, false)).substitutes).toMatchObject([{ id: other, note: "half a size up" }]);
    await expect(addSubstitute(a, { partId: other, code: "BC-other", note: "" })).rejects.toThrow(/itself/);
    await expect(addSubstitute(a, { partId: other, code: "nope", note: "" })).rejects.toThrow(/No part/);
  });
});

describe("stock figures", () => {
  it("value stock at any day by the moves dated up to it, those written later included", async () => {
    const { a: fresh } = await twoShops(new Date("2026-09-10T02:00:00Z"));
    const id = await part(fresh, { opening: "10", cost: "8.00" });
    const november = as(fresh, { now: new Date("2026-11-25T02:00:00Z") });
    await recordMove(november, { partId: id, kind: "use", quantityMilli: 4_000 });
    await recordMove(november, {
      partId: id,
      kind: "receipt",
      quantityMilli: 2_000,
      unitCostE4: 80_000,
      at: new Date("2026-10-05T02:00:00Z"),
    });
    const value = async (day: string) => (await stockFigures(november, day)).valueE4 / 10_000;
    expect(await value("2026-09-09")).toBe(0);
    expect(await value("2026-09-30")).toBe(80);
    expect(await value("2026-10-31")).toBe(96);
    expect(await value("2026-11-25")).toBe(64);
    const figures = await stockFigures(november, "2026-11-25");
    expect(figures.usedE4 / 10_000).toBe(32);
    // 76 days of record; month ends 80 and 96, 64 at the end: average 80. 32 / 80 x 365 / 76.
    expect(figures.turns).toBeCloseTo((32 / 80) * (365 / 76), 6);
    expect((await usagePerMonth(november, id)).at(-1)).toEqual({ month: "2026-11", usedMilli: 4_000 });
  });

  it("name what lay a year without a use, and how often counts agreed", async () => {
    const { a: old } = await twoShops(new Date("2025-06-10T02:00:00Z"));
    const dead = await part(old, { opening: "3", cost: "5.00", bin: "E1" });
    const alive = await part(old, { opening: "3", cost: "5.00", bin: "E1" });
    const now = as(old, { now: new Date("2026-11-25T02:00:00Z") });
    await recordMove(now, { partId: alive, kind: "use", quantityMilli: 1_000 });
    const count = await startCount(now, "E1");
    await enterCount(now, {
      sheetId: count,
      version: 1,
      counted: [
        { partId: dead, countedMilli: 3_000 },
        { partId: alive, countedMilli: 1_000 },
      ],
    });
    await approveCount(now, { sheetId: count, version: 2, leaveOut: [] });
    const figures = await stockFigures(now, "2026-11-25");
    expect(figures.dead.map((row) => [row.id, row.valueE4])).toEqual([[dead, 150_000]]);
    expect(figures.accuracy).toEqual({ counted: 2, agreed: 1 });
  });

  it("know the last days of months, over the turn of a year", () => {
    expect(monthEndsBefore("2026-02-10", 3)).toEqual(["2025-11-30", "2025-12-31", "2026-01-31"]);
    expect(monthEndsBefore("2028-03-31", 2)).toEqual(["2028-01-31", "2028-02-29"]);
  });
});

describe("what cannot be", () => {
  it("is refused with what to do: an unknown unit, a reused code, more than there is", async () => {
    const bad = NewPartSchema.safeParse({ code: "U-1", name: "Tape", kind: "other", unit: "furlong" });
    expect(bad.error?.issues[0]?.message).toBe("Choose how it is counted.");
    await part(a, { code: "TWICE-1" });
    await expect(part(a, { code: "TWICE-1" })).rejects.toMatchObject({
      remedy: expect.stringContaining("another code"),
    });
    const id = await part(a, { opening: "1" });
    await expect(
      recordMove(a, { partId: id, kind: "returnToSupplier", quantityMilli: 2_000, why: "wrong" }),
    ).rejects.toMatchObject({ remedy: expect.stringContaining("Count the bin") });
  });
});
