import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { runImport } from "@/lib/data/imports/run";
import { getCard } from "@/lib/data/jobs/card";
import { addToDrafts } from "@/lib/data/orders/draft";
import { getOrder } from "@/lib/data/orders/list";
import { placeOrder } from "@/lib/data/orders/place";
import { receiveOrder } from "@/lib/data/orders/receive";
import { changePart } from "@/lib/data/parts/save";
import { moveBetweenBins } from "@/lib/data/stock/betweenBins";
import { correctMove } from "@/lib/data/stock/correct";
import { splitPart } from "@/lib/data/stock/counts";
import { stockFigures } from "@/lib/data/stock/figures";
import { recordMove } from "@/lib/data/stock/moves";
import { getPart, listParts } from "@/lib/data/stock/parts";
import { reserveIn, useReserved } from "@/lib/data/stock/reservations";
import type { ShopHandle } from "@/lib/db/shop";
import { guessMapping } from "@/lib/domain/imports/guess";
import { elsewhereText, fetchText } from "@/lib/schemas/bins";
import { parseCsv } from "@/lib/schemas/csv";
import { ImportSchema } from "@/lib/schemas/imports";
import { PartSchema } from "@/lib/schemas/parts";
import { MoveBetweenSchema } from "@/lib/schemas/stockMoves";
import { binnedPart, lying } from "../support/bins";
import { oneJob } from "../support/oneJob";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeAll(async () => {
  ({ a, b } = await twoShops());
});

const view = async (id: number) => {
  const part = await getPart(a, id, true);
  if (!part) throw new Error("no such part");
  return part;
};
const between = (partId: number, from: string, to: string, pieces: number, more = {}) =>
  moveBetweenBins(a, { partId, from, to, quantityMilli: pieces * 1000, ...more });
const edited = async (id: number, more: Record<string, string>) => {
  const part = await view(id);
  return PartSchema.parse({
    ...Object.fromEntries(["code", "name", "kind", "unit", "bin"].map((key) => [key, part[key as "code"]])),
    id,
    version: part.version,
    active: "true",
    ...more,
  });
};

describe("moving between bins", () => {
  it("takes from one bin and puts into the other, and leaves on hand, reservations, cost and the other shop alone", async () => {
    const id = await binnedPart(a, { opening: "5", cost: "2.00" });
    const other = await binnedPart(b, { opening: "5" });
    const { jobId } = await oneJob(a);
    await a.write((tx) => reserveIn(tx, a, { jobId, partId: id, wantedMilli: 5_000 }));
    const worth = (await stockFigures(a, "2026-11-25")).valueE4;
    await between(id, "A", "B2", 2);
    expect(await lying(a, id)).toEqual({ A: 3_000, B2: 2_000 });
    expect((await listParts(a, { q: "b2" })).rows.map((row) => row.id)).toContain(id);
    expect(await view(id)).toMatchObject({
      bin: "A",
      onHandMilli: 5_000,
      reservedMilli: 5_000,
      cost: { averageE4: 20_000 },
    });
    expect((await stockFigures(a, "2026-11-25")).valueE4).toBe(worth);
    expect(await lying(b, other)).toEqual({ A: 5_000 });
    const [back, out] = (await view(id)).moves;
    expect(out).toMatchObject({ kind: "betweenBins", quantityMilli: -2_000, bin: "A", why: "to bin B2" });
    expect(back).toMatchObject({ kind: "betweenBins", quantityMilli: 2_000, bin: "B2", afterMilli: 5_000 });
    await expect(correctMove(a, { moveId: out?.id ?? 0, rightMilli: 1_000, why: "x" })).rejects.toMatchObject(
      {
        remedy: expect.stringContaining("Move it back"),
      },
    );
    expect(await problemsOf(a)).toEqual([]);
  });

  it("refuses more than lies there, the same bin, a broken piece, nothing, and a bin without a name", async () => {
    const id = await binnedPart(a, { opening: "3" });
    await between(id, "A", "B3", 1);
    await expect(between(id, "A", "C", 3)).rejects.toMatchObject({
      message: expect.stringMatching(/^Only 2 of BN-\d+ lies in bin A\.$/),
      remedy: expect.stringContaining("1 in bin B3"),
    });
    await expect(between(id, "Z", "C", 1)).rejects.toThrow(/^None of/);
    await expect(between(id, "A", "A", 1)).rejects.toThrow(/already/);
    await expect(between(id, "A", "C", 0.5)).rejects.toThrow(/pieces/);
    await expect(between(id, "A", "C", 0)).rejects.toThrow(/more than nothing/);
    await expect(between(id, "A", " ", 1)).rejects.toMatchObject({
      remedy: expect.stringContaining("which bin"),
    });
    await expect(between(999_999, "A", "C", 1)).rejects.toMatchObject({ kind: "missing" });
    const form = { partId: "1", version: "1", from: "A", quantity: "1" };
    expect(MoveBetweenSchema.safeParse(form).error?.issues[0]?.message).toContain("which bin");
    expect(MoveBetweenSchema.parse({ ...form, to: "B", newBin: "C" })).toMatchObject({ to: "C" });
    expect(await lying(a, id)).toEqual({ A: 2_000, B3: 1_000 });
  });

  it("takes a name that is not known for a new bin, and one written otherwise for the bin it means", async () => {
    const id = await binnedPart(a, { opening: "3" });
    await between(id, "A", "Shelf 9", 1);
    expect(await between(id, "A", "shelf 9", 1)).toMatchObject({ to: "Shelf 9" });
    expect(await lying(a, id)).toEqual({ A: 1_000, "Shelf 9": 2_000 });
  });

  it("makes the new bin the usual one where that is asked for, and is taken back whole", async () => {
    const id = await binnedPart(a, { opening: "3" });
    const moved = await between(id, "A", "U1", 3, { home: { version: 1 }, key: "once" });
    expect(await between(id, "A", "U1", 3, { home: { version: 1 }, key: "once" })).toEqual(moved);
    expect(moved).toEqual({ to: "U1", version: 2, homeBefore: "A" });
    expect((await listParts(a, { q: "u1" })).rows.map((row) => row.id)).toEqual([id]);
    await expect(between(id, "U1", "U2", 1, { home: { version: 1 } })).rejects.toMatchObject({
      kind: "conflict",
    });
    expect(await lying(a, id)).toEqual({ U1: 3_000 });
    await between(id, "U1", "A", 3, { home: { version: 2, bin: "A" }, undoes: true });
    expect(await view(id)).toMatchObject({ bin: "A", bins: [{ bin: "A", onHandMilli: 3_000 }] });
  });
});

describe("what comes in and goes out", () => {
  it("goes into the bin that is named, else into the usual one, on a receipt, a return and an order", async () => {
    const id = await binnedPart(a, { supplier: "Marl Supplies" });
    await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 2_000, bin: "R1" });
    await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 1_000 });
    await recordMove(a, { partId: id, kind: "returnToStock", quantityMilli: 1_000, why: "taken off" });
    const [orderId] = (await addToDrafts(a, [{ partId: id, quantityMilli: 4_000 }])) as [number];
    await placeOrder(a, { orderId, version: (await getOrder(a, orderId, true))?.version ?? 0 });
    const line = (await getOrder(a, orderId, true))?.lines[0];
    await receiveOrder(a, {
      orderId,
      lines: [{ lineId: line?.id ?? 0, quantityMilli: 3_000, bin: "R2" }],
    });
    expect(await lying(a, id)).toEqual({ A: 2_000, R1: 2_000, R2: 3_000 });
    expect(await problemsOf(a)).toEqual([]);
  });

  it("of a part without a usual bin goes where most of it lies, and lies in no bin where there is none", async () => {
    const id = await binnedPart(a, { bin: "" });
    await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 1_000 });
    expect(await lying(a, id)).toEqual({ "": 1_000 });
    await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 3_000, bin: "N1" });
    await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 1_000 });
    expect(await lying(a, id)).toEqual({ "": 1_000, N1: 4_000 });
  });

  it("comes from the bin that is named and no other, else from the usual one and then the fullest, a move for each", async () => {
    const id = await binnedPart(a, { opening: "10" });
    await between(id, "A", "B", 3);
    await between(id, "A", "C", 5);
    await recordMove(a, { partId: id, kind: "scrap", quantityMilli: 1_000, bin: "B", why: "burred" });
    await expect(
      recordMove(a, { partId: id, kind: "scrap", quantityMilli: 3_000, bin: "B", why: "burred" }),
    ).rejects.toThrow(/Only 2 of .* lies in bin B/);
    const { jobId } = await oneJob(a);
    const { reservationId } = await a.write((tx) =>
      reserveIn(tx, a, { jobId, partId: id, wantedMilli: 8_000 }),
    );
    await useReserved(a, { reservationId, quantityMilli: 8_000 });
    expect(await lying(a, id)).toEqual({ B: 1_000 });
    expect((await view(id)).moves.slice(0, 3).map((move) => [move.bin, move.quantityMilli])).toEqual([
      ["B", -1_000],
      ["C", -5_000],
      ["A", -2_000],
    ]);
    expect(await view(id)).toMatchObject({ onHandMilli: 1_000, reservedMilli: 0 });
    expect(await problemsOf(a)).toEqual([]);
  });

  it("is never taken beyond what is free, however it is spread", async () => {
    const id = await binnedPart(a, { opening: "4" });
    await between(id, "A", "B", 2);
    const { jobId } = await oneJob(a);
    await a.write((tx) => reserveIn(tx, a, { jobId, partId: id, wantedMilli: 2_000 }));
    await expect(recordMove(a, { partId: id, kind: "use", quantityMilli: 3_000 })).rejects.toThrow(
      /reserved/,
    );
    expect(await lying(a, id)).toEqual({ A: 2_000, B: 2_000 });
  });

  it("is put right in its own bin, and an assortment opens into the usual bins", async () => {
    const id = await binnedPart(a);
    const { moveId } = await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 5_000, bin: "P1" });
    await correctMove(a, { moveId, rightMilli: 3_000, why: "two were another size" });
    expect(await lying(a, id)).toEqual({ P1: 3_000 });
    const set = await binnedPart(a, { bin: "S", opening: "1" });
    await splitPart(a, { partId: set, quantityMilli: 1_000, into: [{ partId: id, quantityMilli: 6_000 }] });
    expect(await lying(a, id)).toEqual({ A: 6_000, P1: 3_000 });
    expect(await lying(a, set)).toEqual({});
  });

  it("costs first in, first out what it would without the moves between bins", async () => {
    await b.write((tx) => tx.settings.update({ where: { id: 1 }, data: { stockCosting: "fifo" } }));
    const id = await binnedPart(b);
    await recordMove(b, { partId: id, kind: "receipt", quantityMilli: 2_000, unitCostE4: 10_000 });
    await recordMove(b, { partId: id, kind: "receipt", quantityMilli: 2_000, unitCostE4: 30_000 });
    await moveBetweenBins(b, { partId: id, from: "A", to: "B", quantityMilli: 3_000 });
    await recordMove(b, { partId: id, kind: "use", quantityMilli: 3_000 });
    const uses = await b.read.move.findMany({
      where: { partId: id, kind: "use" },
      select: { bin: true, quantityMilli: true, unitCostE4: true },
      orderBy: { id: "asc" },
    });
    // The first piece at 1.00 out of A; the second at 1.00 and one at 3.00 out of B, 2.00 on the average of the two.
    expect(uses).toEqual([
      { bin: "A", quantityMilli: -1_000, unitCostE4: 10_000 },
      { bin: "B", quantityMilli: -2_000, unitCostE4: 20_000 },
    ]);
  });
});

describe("the usual bin", () => {
  it("changes without its stock, unless all of it is to move there", async () => {
    const id = await binnedPart(a, { opening: "5" });
    await between(id, "A", "B", 2);
    await changePart(a, await edited(id, { bin: "H1" }));
    expect(await lying(a, id)).toEqual({ A: 3_000, B: 2_000 });
    expect(elsewhereText(await view(id))).toBe("lies: 3 in A, 2 in B");
    await changePart(a, await edited(id, { bin: "H2", moveAll: "true" }));
    expect(await lying(a, id)).toEqual({ H2: 5_000 });
    expect(elsewhereText(await view(id))).toBe("");
    await expect(changePart(a, await edited(id, { bin: "", moveAll: "true" }))).rejects.toThrow(/no bin/);
    expect(await view(id)).toMatchObject({ bin: "H2" });
  });

  it("that is a part's first is where what lay in no bin lies", async () => {
    const id = await binnedPart(a, { bin: "", opening: "2" });
    await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 1_000, bin: "F2" });
    await changePart(a, await edited(id, { bin: "F1" }));
    expect(await lying(a, id)).toEqual({ F1: 2_000, F2: 1_000 });
    expect(await problemsOf(a)).toEqual([]);
  });

  it("comes in with a file, where opening stock goes; a change of it leaves stock behind and says so", async () => {
    const bring = (text: string) => {
      const map = Object.entries(guessMapping("parts", parseCsv(text).headings)).map(([key, column]) => [
        key,
        column === null ? "" : String(column),
      ]);
      return runImport(
        a,
        ImportSchema.parse({ noun: "parts", fileName: "parts.csv", text, map: Object.fromEntries(map) }),
      );
    };
    await bring("code,name,bin,opening stock\nIM-1,Jet,I1,4\nIM-2,Jet,,2");
    const ids = await a.read.part.findMany({
      where: { code: { in: ["IM-1", "IM-2"] } },
      select: { id: true },
      orderBy: { code: "asc" },
    });
    const [one, two] = ids.map((row) => row.id) as [number, number];
    const after = await bring("code,name,bin\nIM-1,Jet,I2\nIM-2,Jet,I3");
    expect(after.notes).toMatchObject([{ line: 2, text: expect.stringContaining("stays there") }]);
    expect(await lying(a, one)).toEqual({ I1: 4_000 });
    expect(await lying(a, two)).toEqual({ I3: 2_000 });
    expect(await problemsOf(a)).toEqual([]);
  });
});

it("a job's card says the bins that hold a part, not only its usual one", async () => {
  const id = await binnedPart(a, { opening: "3" });
  const { jobId } = await oneJob(a);
  await a.write((tx) => reserveIn(tx, a, { jobId, partId: id, wantedMilli: 1_000 }));
  const told = async () => {
    const card = await getCard(a, jobId);
    return card?.looseParts.map((one) => fetchText(one.part));
  };
  expect(await told()).toEqual(["bin A"]);
  await between(id, "A", "B", 2);
  expect(await told()).toEqual(["bin A (1), bin B (2)"]);
  await between(id, "A", "B", 1);
  expect(await told()).toEqual(["bin B"]);
});

it("the database itself refuses a bin that would hold less than nothing", async () => {
  const id = await binnedPart(a, { opening: "1" });
  await expect(
    a.write((tx) =>
      tx.partBin.updateMany({ where: { partId: id }, data: { onHandMilli: { decrement: 2_000 } } }),
    ),
  ).rejects.toThrow(/constraint|less than nothing/i);
  expect(await lying(a, id)).toEqual({ A: 1_000 });
});
