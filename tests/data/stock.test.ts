import { beforeAll, describe, expect, it } from "vitest";
import { changePart, createPart, putOnOrder } from "@/lib/data/parts/save";
import { countPart, splitPart } from "@/lib/data/stock/counts";
import { belowPoint, drawer, listDrawer, nearestInDrawer, partsByCode } from "@/lib/data/stock/drawer";
import { suggestPoint } from "@/lib/data/stock/habits";
import { recordMove } from "@/lib/data/stock/moves";
import { getPart, listParts } from "@/lib/data/stock/parts";
import { releaseIn, reserveIn, useReserved } from "@/lib/data/stock/reservations";
import type { ShopHandle } from "@/lib/db/shop";
import { type NewPartInput, NewPartSchema, PartSchema } from "@/lib/schemas/parts";
import { oneJob } from "../support/oneJob";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let made = 0;

const typed = (more: Record<string, string> = {}): NewPartInput =>
  NewPartSchema.parse({ code: `MJ-${++made}`, name: "Main jet", kind: "other", unit: "each", ...more });
const part = (shop: ShopHandle, more: Record<string, string> = {}) => createPart(shop, typed(more));
const seen = async (shop: ShopHandle, id: number) => {
  const view = await getPart(shop, id, true);
  if (!view) throw new Error("no such part");
  return view;
};

beforeAll(async () => {
  ({ a, b } = await twoShops());
});

describe("the ledger", () => {
  it("keeps on hand, the average cost and the moves together", async () => {
    const id = await part(a, { opening: "10", cost: "8.00" });
    await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 10_000, unitCostE4: 85_000 });
    await recordMove(a, { partId: id, kind: "use", quantityMilli: 10_000 });
    const view = await seen(a, id);
    // Moving average: (10 at 8.00 + 10 at 8.50) / 20 = 8.25; IAS 2.27. What goes out leaves it alone.
    expect(view.onHandMilli).toBe(10_000);
    expect(view.cost?.averageE4).toBe(82_500);
    expect(view.moves.map((move) => [move.kind, move.quantityMilli, move.afterMilli])).toEqual([
      ["use", -10_000, 10_000],
      ["receipt", 10_000, 20_000],
      ["opening", 10_000, 10_000],
    ]);
    expect(view.moves[0]?.unitCostE4).toBe(82_500);
  });

  it("costs what goes out by its oldest layers in a first-in-first-out shop", async () => {
    const { a: fifo } = await twoShops();
    await fifo.write((tx) => tx.settings.update({ where: { id: 1 }, data: { stockCosting: "fifo" } }));
    const id = await part(fifo, { opening: "10", cost: "8.00" });
    await recordMove(fifo, { partId: id, kind: "receipt", quantityMilli: 10_000, unitCostE4: 85_000 });
    await recordMove(fifo, { partId: id, kind: "use", quantityMilli: 12_000 });
    const view = await seen(fifo, id);
    // 10 at 8.00 and 2 at 8.50 are 97.00 for 12; 8 at 8.50 are left.
    expect(view.moves[0]?.unitCostE4).toBe(80_833);
    expect(view.cost?.averageE4).toBe(85_000);
  });

  it("never lets on hand fall below nothing, and says what there is", async () => {
    const id = await part(a, { opening: "2" });
    await expect(
      recordMove(a, { partId: id, kind: "scrap", quantityMilli: 3_000, why: "burred" }),
    ).rejects.toThrow(/Only 2 of MJ-\d+/);
    expect((await seen(a, id)).onHandMilli).toBe(2_000);
  });

  it("counts pieces in whole numbers and millilitres in thousandths", async () => {
    const pieces = await part(a, { opening: "2" });
    const bottle = await part(a, { unit: "ml", kind: "chemical", opening: "50" });
    await expect(recordMove(a, { partId: pieces, kind: "use", quantityMilli: 500 })).rejects.toThrow(
      /pieces/,
    );
    await recordMove(a, { partId: bottle, kind: "use", quantityMilli: 1_250 });
    expect((await seen(a, bottle)).onHandMilli).toBe(48_750);
  });

  it("refuses a receipt of less than nothing", async () => {
    const id = await part(a);
    await expect(recordMove(a, { partId: id, kind: "receipt", quantityMilli: -1_000 })).rejects.toThrow(
      /less than nothing/,
    );
  });

  it("records a repeated request once", async () => {
    const id = await part(a, { opening: "5" });
    const first = await recordMove(a, { partId: id, kind: "use", quantityMilli: 1_000, key: "same-key-1" });
    const again = await recordMove(a, { partId: id, kind: "use", quantityMilli: 1_000, key: "same-key-1" });
    expect(again.moveId).toBe(first.moveId);
    expect((await seen(a, id)).onHandMilli).toBe(4_000);
  });

  it("takes a receipt off what is on order", async () => {
    const id = await part(a);
    await putOnOrder(a, { partId: id, quantityMilli: 10_000 });
    await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 4_000 });
    expect((await seen(a, id)).onOrderMilli).toBe(6_000);
  });
});

describe("reservations", () => {
  it("give the last jet to one job and tell the other who has it", async () => {
    const id = await part(a, { opening: "1" });
    const first = await oneJob(a);
    const second = await oneJob(a);
    const [one, two] = await Promise.all([
      a.write((tx) => reserveIn(tx, a, { jobId: first.jobId, partId: id, wantedMilli: 1_000 })),
      a.write((tx) => reserveIn(tx, a, { jobId: second.jobId, partId: id, wantedMilli: 1_000 })),
    ]);
    const [won, lost] = one.reservedMilli ? [one, two] : [two, one];
    const winner = one.reservedMilli ? first : second;
    expect(won).toMatchObject({ reservedMilli: 1_000, shortMilli: 0, reservedBy: [] });
    expect(lost).toMatchObject({
      reservedMilli: 0,
      shortMilli: 1_000,
      reservedBy: [{ jobNumber: winner.number, reservedMilli: 1_000 }],
    });
  });

  it("hold exactly what there is when a hundred ask for thirty at once", async () => {
    const id = await part(a, { opening: "30" });
    const job = await oneJob(a);
    const answers = await Promise.all(
      Array.from({ length: 100 }, () =>
        a.write((tx) => reserveIn(tx, a, { jobId: job.jobId, partId: id, wantedMilli: 1_000 })),
      ),
    );
    expect(answers.filter((answer) => answer.reservedMilli === 1_000)).toHaveLength(30);
    expect(answers.filter((answer) => answer.shortMilli === 1_000)).toHaveLength(70);
    expect((await seen(a, id)).reservedMilli).toBe(30_000);
  });

  it("keep reserved parts from other uses, saying for whom they are", async () => {
    const id = await part(a, { opening: "3" });
    const job = await oneJob(a);
    await a.write((tx) => reserveIn(tx, a, { jobId: job.jobId, partId: id, wantedMilli: 2_000 }));
    await expect(
      recordMove(a, { partId: id, kind: "scrap", quantityMilli: 2_000, why: "lost" }),
    ).rejects.toThrow(new RegExp(`2 to job ${job.number} is reserved, 1 is left over`));
    await recordMove(a, { partId: id, kind: "scrap", quantityMilli: 1_000, why: "lost" });
    expect((await seen(a, id)).freeMilli).toBe(0);
  });

  it("are used with one move, and no further than they hold", async () => {
    const id = await part(a, { opening: "3" });
    const job = await oneJob(a);
    const { reservationId } = await a.write((tx) =>
      reserveIn(tx, a, { jobId: job.jobId, partId: id, wantedMilli: 2_000 }),
    );
    await expect(useReserved(a, { reservationId, quantityMilli: 3_000 })).rejects.toThrow(/holds 2 of/);
    const { moveId } = await useReserved(a, { reservationId, quantityMilli: 2_000, key: "use-twice-1" });
    expect(await useReserved(a, { reservationId, quantityMilli: 2_000, key: "use-twice-1" })).toEqual({
      moveId,
    });
    const view = await seen(a, id);
    expect(view).toMatchObject({ onHandMilli: 1_000, reservedMilli: 0, reservations: [] });
    expect(view.moves[0]).toMatchObject({
      id: moveId,
      kind: "use",
      quantityMilli: -2_000,
      job: { number: job.number },
    });
    await expect(useReserved(a, { reservationId, quantityMilli: 1_000 })).rejects.toThrow(/used up/);
  });

  it("are filled from a receipt, the oldest job first", async () => {
    const id = await part(a);
    const older = await oneJob(a);
    const newer = await oneJob(a);
    await a.write((tx) => reserveIn(tx, a, { jobId: newer.jobId, partId: id, wantedMilli: 2_000 }));
    await a.write((tx) => reserveIn(tx, a, { jobId: older.jobId, partId: id, wantedMilli: 2_000 }));
    const { filled } = await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 3_000 });
    expect(filled.map((one) => [one.jobNumber, one.reservedMilli])).toEqual([
      [older.number, 2_000],
      [newer.number, 1_000],
    ]);
    expect((await seen(a, id)).reservedMilli).toBe(3_000);
  });

  it("go back when a job is given up, to the job that is short", async () => {
    const id = await part(a, { opening: "1" });
    const first = await oneJob(a);
    const second = await oneJob(a);
    await a.write((tx) => reserveIn(tx, a, { jobId: first.jobId, partId: id, wantedMilli: 1_000 }));
    await a.write((tx) => reserveIn(tx, a, { jobId: second.jobId, partId: id, wantedMilli: 1_000 }));
    await a.write((tx) => releaseIn(tx, a, first.jobId));
    const view = await seen(a, id);
    expect(view.reservations).toMatchObject([
      { reservedMilli: 1_000, shortMilli: 0, job: { number: second.number } },
    ]);
    expect(view.reservedMilli).toBe(1_000);
  });
});

describe("counting and splitting", () => {
  it("records the variance, and makes the newest reservation short when the bin holds less", async () => {
    const id = await part(a, { opening: "4" });
    const older = await oneJob(a);
    const newer = await oneJob(a);
    for (const job of [older, newer])
      await a.write((tx) => reserveIn(tx, a, { jobId: job.jobId, partId: id, wantedMilli: 2_000 }));
    expect(await countPart(a, { partId: id, countedMilli: 3_000, seenMilli: 4_000 })).toBe(-1_000);
    const view = await seen(a, id);
    expect(view).toMatchObject({ onHandMilli: 3_000, reservedMilli: 3_000 });
    expect(
      view.reservations.map((reservation) => [
        reservation.job.number,
        reservation.reservedMilli,
        reservation.shortMilli,
      ]),
    ).toEqual([
      [older.number, 2_000, 0],
      [newer.number, 1_000, 1_000],
    ]);
  });

  it("asks for a new count when the part moved meanwhile", async () => {
    const id = await part(a, { opening: "4" });
    await recordMove(a, { partId: id, kind: "use", quantityMilli: 1_000 });
    await expect(countPart(a, { partId: id, countedMilli: 4_000, seenMilli: 4_000 })).rejects.toThrow(
      /moved while you counted/,
    );
  });

  it("writes no move where the bin agrees", async () => {
    const id = await part(a, { opening: "4" });
    expect(await countPart(a, { partId: id, countedMilli: 4_000, seenMilli: 4_000 })).toBe(0);
    expect((await seen(a, id)).moves).toHaveLength(1);
  });

  it("opens an assortment into single jets that share its cost", async () => {
    const box = await part(a, { opening: "2", cost: "30.00" });
    const small = await part(a);
    const large = await part(a);
    await splitPart(a, {
      partId: box,
      quantityMilli: 1_000,
      into: [
        { partId: small, quantityMilli: 4_000 },
        { partId: large, quantityMilli: 2_000 },
      ],
    });
    expect((await seen(a, box)).onHandMilli).toBe(1_000);
    expect(await seen(a, small)).toMatchObject({ onHandMilli: 4_000, cost: { averageE4: 50_000 } });
    expect(await seen(a, large)).toMatchObject({ onHandMilli: 2_000, cost: { averageE4: 50_000 } });
  });

  it("takes nothing out of an assortment when one of the pieces does not exist", async () => {
    const box = await part(a, { opening: "1" });
    await expect(
      splitPart(a, { partId: box, quantityMilli: 1_000, into: [{ partId: 999_999, quantityMilli: 1_000 }] }),
    ).rejects.toThrow();
    expect((await seen(a, box)).onHandMilli).toBe(1_000);
  });
});

describe("parts", () => {
  it("refuse a code twice and name the part that has it", async () => {
    const first = typed({ name: "Pilot jet 45" });
    await createPart(a, first);
    await expect(createPart(a, typed({ code: first.code }))).rejects.toMatchObject({
      message: expect.stringContaining("Pilot jet 45"),
      fields: { code: expect.any(String) },
    });
  });

  it("say who changed what when two people edit one part", async () => {
    const input = typed();
    const id = await createPart(a, input);
    const edit = (more: object) =>
      PartSchema.parse({
        ...input,
        cost: undefined,
        price: "",
        size: "",
        point: "",
        id,
        version: 1,
        active: "true",
        ...more,
      });
    await changePart(a, edit({ bin: "C4" }));
    await expect(changePart(a, edit({ name: "Other name" }))).rejects.toMatchObject({
      kind: "conflict",
      message: expect.stringMatching(/Test Owner changed .*: bin/),
    });
    expect((await seen(a, id)).bin).toBe("C4");
  });

  it("keep their unit once they have moved", async () => {
    const input = typed({ opening: "1" });
    const id = await createPart(a, input);
    await expect(
      changePart(
        a,
        PartSchema.parse({
          ...input,
          cost: undefined,
          price: "",
          size: "",
          point: "",
          id,
          version: 1,
          active: "true",
          unit: "ml",
        }),
      ),
    ).rejects.toThrow(/has moved in each/);
  });

  it("are put away by taking the tick away, once they are empty", async () => {
    const input = typed({ opening: "1" });
    const id = await createPart(a, input);
    const edit = (version: number) =>
      PartSchema.parse({ ...input, cost: undefined, price: "", size: "", point: "", id, version });
    await expect(changePart(a, edit(1))).rejects.toThrow(/still on hand/);
    await recordMove(a, { partId: id, kind: "scrap", quantityMilli: 1_000, why: "last one lost" });
    await changePart(a, edit(1));
    expect((await seen(a, id)).active).toBe(false);
  });

  it("page by code without gaps or doubles, and find by several words", async () => {
    const { a: fresh } = await twoShops();
    for (let i = 0; i < 25; i++)
      await part(fresh, { code: `Z-${100 + i}`, name: i % 2 ? "Needle brass" : "Filter foam" });
    const codes: string[] = [];
    for (let after: number | undefined, turn = 0; turn < 9; turn++) {
      const page = await listParts(fresh, { after }, 10);
      codes.push(...page.rows.map((row) => row.code));
      if (page.next === null) break;
      after = page.next;
    }
    expect(codes).toEqual(Array.from({ length: 25 }, (_, i) => `Z-${100 + i}`));
    const found = await listParts(fresh, { q: "brass z-103" });
    expect(found.rows.map((row) => row.code)).toEqual(["Z-103"]);
  });

  it("hide costs from those who may not see margins", async () => {
    const id = await part(a, { opening: "1", cost: "9.00" });
    const view = await getPart(a, id, false);
    expect(view?.cost).toBeNull();
    expect(JSON.stringify(view)).not.toContain("90000");
  });
});

describe("the drawer", () => {
  it("shows families by size, the nearest sizes first and the richer of two alike", async () => {
    const { a: fresh } = await twoShops();
    for (const size of ["120", "122.5", "125", "127.5"])
      await part(fresh, {
        kind: "jet",
        family: "Large round",
        size,
        convention: "bore",
        opening: "2",
        point: "3",
      });
    await part(fresh, { kind: "jet", family: "Pilot", size: "45", convention: "flow" });
    expect((await drawer(fresh, "Large round")).map((size) => size.sizeMilli)).toEqual([
      120_000, 122_500, 125_000, 127_500,
    ]);
    expect((await listDrawer(fresh)).map((family) => [family.family, family.sizes.length])).toEqual([
      ["Large round", 4],
      ["Pilot", 1],
    ]);
    const near = await nearestInDrawer(fresh, "Large round", 123_750, 3);
    expect(near.map((size) => size.sizeMilli)).toEqual([125_000, 122_500, 127_500]);
    expect(near[0]).toMatchObject({ onHandMilli: 2_000, freeMilli: 2_000, below: true });
  });

  it("lists what is below its point by what is free, not by what is on hand", async () => {
    const { a: fresh } = await twoShops();
    const reserved = await part(fresh, { opening: "3", point: "3" });
    await part(fresh, { opening: "3", point: "3" });
    const job = await oneJob(fresh);
    expect(await belowPoint(fresh, 10)).toEqual([]);
    await fresh.write((tx) =>
      reserveIn(tx, fresh, { jobId: job.jobId, partId: reserved, wantedMilli: 1_000 }),
    );
    expect((await belowPoint(fresh, 10)).map((row) => [row.id, row.freeMilli])).toEqual([[reserved, 2_000]]);
    expect((await listParts(fresh, { below: "1" })).rows.map((row) => row.id)).toEqual([reserved]);
  });

  it("suggests a point from a year of uses, and none from a short record", async () => {
    const days = (n: number) => as(a, { now: new Date(a.now.getTime() - n * 86_400_000) });
    const often = await createPart(days(300), typed({ opening: "100", leadDays: "10" }));
    for (let day = 290; day > 0; day -= 10)
      await recordMove(days(day), { partId: often, kind: "use", quantityMilli: 1_000 });
    const policy = await suggestPoint(a, { id: often, unit: "each", leadDays: 10 });
    // 29 uses in 301 days: one in the ten days of lead time, and safety stock on top, in whole pieces.
    expect(policy?.method).toBe("reorder point");
    expect(policy?.pointMilli).toBeGreaterThanOrEqual(2_000);
    expect((policy?.pointMilli ?? 1) % 1_000).toBe(0);
    // Cheap enough to order by the year, but 91 days use nine.
    expect(policy?.orderMilli).toBe(9_000);
    const seldom = await createPart(days(300), typed({ opening: "9" }));
    await recordMove(days(200), { partId: seldom, kind: "use", quantityMilli: 2_000 });
    expect(await suggestPoint(a, { id: seldom, unit: "each", leadDays: 5 })).toMatchObject({
      method: "min and max",
      pointMilli: 2_000,
    });
    const young = await createPart(days(9), typed({ opening: "9" }));
    await recordMove(days(8), { partId: young, kind: "use", quantityMilli: 2_000 });
    expect(await suggestPoint(a, { id: young, unit: "each", leadDays: 5 })).toBeNull();
  });

  it("answers parts by code with their average cost", async () => {
    const input = typed({ opening: "1", cost: "2.50", price: "4.80" });
    await createPart(a, input);
    expect(await partsByCode(a, [input.code, "no such"])).toMatchObject([
      { code: input.code, unitCostE4: 25_000, unitPriceE4: 48_000, freeMilli: 1_000 },
    ]);
  });
});

it("leaves the other shop alone", async () => {
  expect(await b.read.part.findMany({ select: { id: true }, orderBy: { id: "asc" } })).toEqual([]);
  expect(await b.read.move.findMany({ select: { id: true }, orderBy: { id: "asc" } })).toEqual([]);
});
