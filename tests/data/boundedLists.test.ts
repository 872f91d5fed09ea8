import { beforeAll, describe, expect, it } from "vitest";
import { approveCount } from "@/lib/data/stock/approveCounts";
import { enterCount, getCount, listBins, MOST_ON_SHEET, startCount } from "@/lib/data/stock/binCounts";
import { drawerPage } from "@/lib/data/stock/drawerPage";
import { labelParts } from "@/lib/data/stock/labels";
import { binsToOffer } from "@/lib/data/stock/lying";
import type { ShopHandle } from "@/lib/db/shop";
import { firstLines } from "@/lib/domain/stock/firstLines";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
const BINS = 170;
const IN_ONE = 130;

beforeAll(async () => {
  ({ a, b } = await twoShops());
  const part = (
    n: number,
    more: { bin?: string; family?: string; sizeMilli?: number; pointMilli?: number },
  ) => ({
    code: `L-${String(n).padStart(4, "0")}`,
    name: `Main jet ${n}`,
    kind: "jet" as const,
    searchKey: `l-${n}`,
    createdAt: a.now,
    ...more,
  });
  const parts = [
    ...Array.from({ length: BINS }, (_, n) => part(n, { bin: `R${n + 1}` })),
    ...Array.from({ length: IN_ONE }, (_, n) => part(1_000 + n, { bin: "Full" })),
    // Three families of thirty sizes, and one of a hundred and ten.
    ...Array.from({ length: 200 }, (_, n) =>
      part(2_000 + n, {
        family: n < 90 ? `Fam ${1 + Math.floor(n / 30)}` : "Great",
        sizeMilli: 50_000 + n * 500,
        pointMilli: n % 10 === 0 ? 1_000 : 0,
      }),
    ),
  ];
  await a.write((tx) => tx.part.createMany({ data: parts }));
}, 60_000);

describe("lists that grow with the shop", () => {
  it("hand out the bins fifty at a time, A2 before A10, each once, and those of a name", async () => {
    const found: string[] = [];
    for (let after = ""; ; ) {
      const { rows, next } = await listBins(a, { after });
      expect(rows.length).toBeLessThanOrEqual(50);
      found.push(...rows.map((row) => row.bin));
      if (next === null) break;
      after = next;
    }
    expect(found).toEqual(["Full", ...Array.from({ length: BINS }, (_, n) => `R${n + 1}`)]);
    expect((await listBins(a, { q: "r16" })).rows.map((row) => row.bin)).toEqual([
      "R16",
      ...Array.from({ length: 10 }, (_, n) => `R${160 + n}`),
    ]);
    expect((await listBins(a, { q: "full" })).rows).toMatchObject([{ bin: "Full", parts: IN_ONE, lying: 0 }]);
    expect((await listBins(b)).rows).toEqual([]);
  });

  it("offer, of very many bins, those that most parts have their place in", async () => {
    const offered = await binsToOffer(a.read);
    expect(offered).toHaveLength(150);
    expect(offered).toContain("Full");
    expect(await binsToOffer(b.read)).toEqual([]);
  });

  it("find a bin's labels however its name is typed", async () => {
    expect(await labelParts(a, { ids: [], family: "", bin: " fULL" })).toHaveLength(IN_ONE);
    expect(await labelParts(b, { ids: [], family: "", bin: "Full" })).toEqual([]);
  });

  it("count a full bin a sheet at a time, what was not counted for longest first, until all of it was", async () => {
    const counted: number[] = [];
    for (const expected of [MOST_ON_SHEET, MOST_ON_SHEET, MOST_ON_SHEET]) {
      const id = await startCount(a, "full");
      const sheet = await getCount(a, id);
      expect(sheet?.lines).toHaveLength(expected);
      const ids = sheet?.lines.map((line) => line.partId) ?? [];
      counted.push(...ids);
      await enterCount(a, {
        sheetId: id,
        version: sheet?.version ?? 0,
        counted: ids.map((partId) => ({ partId, countedMilli: 0 })),
      });
      const { version = 0 } = (await getCount(a, id)) ?? {};
      await approveCount(a, { sheetId: id, version, leaveOut: [] });
    }
    expect(new Set(counted).size).toBe(IN_ONE);
    // The third sheet takes the ten that are left, and the first fifty of those counted first.
    const third = new Set(counted.slice(2 * MOST_ON_SHEET));
    const again = counted.slice(0, 2 * MOST_ON_SHEET).filter((id) => third.has(id));
    expect(again).toEqual(counted.slice(0, 50));
  });

  it("draw the drawer in pages of whole families, and one that is larger in pieces", async () => {
    const pages: [string, number, number][][] = [];
    const ids: number[] = [];
    for (let after: number | undefined; ; ) {
      const { families, next } = await drawerPage(a, { after });
      pages.push(families.map((one) => [one.family, one.sizes.length, one.below]));
      ids.push(...families.flatMap((one) => one.sizes.map((size) => size.partId)));
      if (next === null) break;
      after = next;
    }
    expect(pages).toEqual([
      [
        ["Fam 1", 30, 3],
        ["Fam 2", 30, 3],
      ],
      [["Fam 3", 30, 3]],
      [["Great", 80, 11]],
      [["Great", 30, 11]],
    ]);
    expect(new Set(ids).size).toBe(200);
    expect((await drawerPage(a, { family: "Fam 2" })).families.map((one) => one.family)).toEqual(["Fam 2"]);
    expect((await drawerPage(b, {})).families).toEqual([]);
  });

  it("show the first lines of what to order and name the suppliers that come after", () => {
    const order = (supplier: string, lines: number) => ({
      supplier,
      lines: Array.from({ length: lines }, (_, n) => `${supplier} ${n}`),
    });
    const all = [order("One", 3), order("Two", 4), order("Three", 2)];
    const { orders, later } = firstLines(all, 5);
    expect(orders).toEqual([
      { ...order("One", 3), count: 3 },
      { supplier: "Two", lines: ["Two 0", "Two 1"], count: 4 },
    ]);
    expect(later).toEqual([{ supplier: "Three", count: 2 }]);
  });
});
