import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { approveCount } from "@/lib/data/stock/approveCounts";
import { moveBetweenBins } from "@/lib/data/stock/betweenBins";
import { dropCount, enterCount, getCount, listBins, startCount } from "@/lib/data/stock/binCounts";
import { addToCount } from "@/lib/data/stock/countFound";
import { countPart } from "@/lib/data/stock/counts";
import { reserveIn } from "@/lib/data/stock/reservations";
import type { ShopHandle } from "@/lib/db/shop";
import { StartCountSchema } from "@/lib/schemas/stockCounts";
import { binnedPart, lying } from "../support/bins";
import { oneJob } from "../support/oneJob";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeAll(async () => {
  ({ a, b } = await twoShops());
});

const sheet = async (id: number) => {
  const view = await getCount(a, id);
  if (!view) throw new Error("no such count");
  return view;
};
const codeOf = async (id: number) =>
  (await a.read.part.findUniqueOrThrow({ where: { id }, select: { code: true } })).code;
const between = (partId: number, from: string, to: string, pieces: number) =>
  moveBetweenBins(a, { partId, from, to, quantityMilli: pieces * 1000 });

describe("the count of a bin", () => {
  it("lists what lies there besides what has its place there, and counts what lies in that bin alone", async () => {
    const home = await binnedPart(a, { bin: "K1", opening: "5" });
    const guest = await binnedPart(a, { bin: "K2", opening: "4" });
    await between(home, "K1", "K2", 2);
    await between(guest, "K2", "K1", 1);
    expect((await listBins(a, { q: "k" })).rows).toMatchObject([
      { bin: "K1", parts: 1, lying: 2 },
      { bin: "K2", parts: 1, lying: 2 },
    ]);
    const id = await startCount(a, "k1");
    expect((await sheet(id)).lines.map((line) => line.partId)).toEqual([home, guest]);
    await enterCount(a, {
      sheetId: id,
      version: 1,
      counted: [
        { partId: home, countedMilli: 3_000 },
        { partId: guest, countedMilli: 0 },
      ],
    });
    const counted = await sheet(id);
    expect(counted.lines.map((line) => [line.seenMilli, line.varianceMilli])).toEqual([
      [3_000, 0],
      [1_000, -1_000],
    ]);
    expect(await approveCount(a, { sheetId: id, version: counted.version, leaveOut: [] })).toBe(1);
    expect(await lying(a, home)).toEqual({ K1: 3_000, K2: 2_000 });
    expect(await lying(a, guest)).toEqual({ K2: 3_000 });
    expect((await listBins(b, { q: "k" })).rows).toEqual([]);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("takes a part found there that the ledger has elsewhere, blind as the others", async () => {
    await binnedPart(a, { bin: "L1", opening: "1" });
    const found = await binnedPart(a, { bin: "L2", opening: "7" });
    const id = await startCount(a, "L1");
    const code = await codeOf(found);
    expect(await addToCount(a, { sheetId: id, code: ` ${code} ` })).toBe(code);
    await expect(addToCount(a, { sheetId: id, code })).rejects.toThrow(/already/);
    await expect(addToCount(a, { sheetId: id, code: "no such label" })).rejects.toMatchObject({
      remedy: expect.stringContaining("new part"),
    });
    expect(JSON.stringify(await sheet(id))).not.toContain("7000");
    // What was opened before the part was added can still be sent.
    await enterCount(a, { sheetId: id, version: 1, counted: [{ partId: found, countedMilli: 2_000 }] });
    const counted = await sheet(id);
    expect(counted.lines.find((line) => line.partId === found)).toMatchObject({
      seenMilli: 0,
      varianceMilli: 2_000,
    });
    await expect(addToCount(a, { sheetId: id, code })).rejects.toMatchObject({ kind: "conflict" });
    await approveCount(a, { sheetId: id, version: counted.version, leaveOut: [] });
    expect(await lying(a, found)).toEqual({ L1: 2_000, L2: 7_000 });
    expect(await problemsOf(a)).toEqual([]);
  });

  it("stands apart from moves between bins made since: what went elsewhere is not missed", async () => {
    const id = await binnedPart(a, { bin: "M1", opening: "6" });
    const count = await startCount(a, "M1");
    await enterCount(a, { sheetId: count, version: 1, counted: [{ partId: id, countedMilli: 5_000 }] });
    await between(id, "M1", "M2", 3);
    await approveCount(a, { sheetId: count, version: 2, leaveOut: [] });
    expect(await lying(a, id)).toEqual({ M1: 2_000, M2: 3_000 });
  });

  it("is refused where the bin has lost more since than the variance leaves, though others hold enough", async () => {
    const id = await binnedPart(a, { bin: "N1", opening: "3" });
    const count = await startCount(a, "N1");
    await enterCount(a, { sheetId: count, version: 1, counted: [{ partId: id, countedMilli: 1_000 }] });
    await between(id, "N1", "N2", 2);
    await expect(approveCount(a, { sheetId: count, version: 2, leaveOut: [] })).rejects.toMatchObject({
      kind: "conflict",
      remedy: expect.stringContaining("Leave this part out"),
    });
    expect(await lying(a, id)).toEqual({ N1: 1_000, N2: 2_000 });
    await dropCount(a, { sheetId: count, version: 2 });
  });

  it("tells what of the reserved would be missing by all bins together", async () => {
    const id = await binnedPart(a, { bin: "O1", opening: "4" });
    await between(id, "O1", "O2", 2);
    const { jobId } = await oneJob(a);
    await a.write((tx) => reserveIn(tx, a, { jobId, partId: id, wantedMilli: 3_000 }));
    const count = await startCount(a, "O1");
    await enterCount(a, { sheetId: count, version: 1, counted: [{ partId: id, countedMilli: 0 }] });
    expect((await sheet(count)).lines[0]?.missingMilli).toBe(1_000);
    await approveCount(a, { sheetId: count, version: 2, leaveOut: [] });
    expect(await lying(a, id)).toEqual({ O2: 2_000 });
    expect(await problemsOf(a)).toEqual([]);
  });

  it("is not begun without a bin's name, nor of a bin nobody knows", async () => {
    await expect(startCount(a, " ")).rejects.toMatchObject({
      remedy: expect.stringContaining("written on it"),
    });
    await expect(startCount(a, "nowhere")).rejects.toMatchObject({
      remedy: expect.stringContaining("Choose a bin from the list"),
    });
    expect(StartCountSchema.safeParse({ bin: "  " }).error?.issues[0]?.message).toContain("Choose a bin");
  });
});

describe("the count of one part", () => {
  it("is of one bin: the usual one unless another is named, and corrects that one", async () => {
    const id = await binnedPart(a, { bin: "Q1", opening: "5" });
    await between(id, "Q1", "Q2", 2);
    expect(await countPart(a, { partId: id, countedMilli: 4_000, seenMilli: 3_000 })).toBe(1_000);
    expect(await countPart(a, { partId: id, bin: "Q2", countedMilli: 0, seenMilli: 2_000 })).toBe(-2_000);
    expect(await countPart(a, { partId: id, bin: "Q3", countedMilli: 1_000, seenMilli: 0 })).toBe(1_000);
    expect(await lying(a, id)).toEqual({ Q1: 4_000, Q3: 1_000 });
    await between(id, "Q1", "Q2", 1);
    await expect(countPart(a, { partId: id, countedMilli: 4_000, seenMilli: 4_000 })).rejects.toThrow(
      /3 lies in bin Q1 now/,
    );
    expect(await problemsOf(a)).toEqual([]);
  });
});
