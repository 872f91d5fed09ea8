import Database from "better-sqlite3";
import fc from "fast-check";
import { beforeAll, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { moveBetweenBins } from "@/lib/data/stock/betweenBins";
import { countPart } from "@/lib/data/stock/counts";
import { recordMove } from "@/lib/data/stock/moves";
import { reserveIn, useReserved } from "@/lib/data/stock/reservations";
import { postgresUrl } from "@/lib/db/folders";
import { migrations } from "@/lib/db/migrations";
import { inPostgres } from "@/lib/db/postgres";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { movingAverage } from "@/lib/domain/stock/cost";
import { atOnce } from "../support/atOnce";
import { binnedPart, lying } from "../support/bins";
import { oneJob } from "../support/oneJob";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let job: number;
beforeAll(async () => {
  ({ a } = await twoShops());
  job = (await oneJob(a)).jobId;
});

const BINS = ["A", "B", "C"] as const;
const bin = fc.constantFrom(...BINS);
const maybeBin = fc.option(bin, { nil: undefined });
const pieces = fc.integer({ min: 1, max: 5 });
const act = fc.oneof(
  fc.record({
    act: fc.constant("receipt" as const),
    pieces,
    bin: maybeBin,
    cost: fc.integer({ min: 1, max: 90_000 }),
  }),
  fc.record({ act: fc.constant("scrap" as const), pieces, bin: maybeBin }),
  fc.record({ act: fc.constant("between" as const), pieces, from: bin, to: bin, home: fc.boolean() }),
  fc.record({ act: fc.constant("count" as const), pieces: fc.nat(6), bin }),
  fc.record({ act: fc.constant("work" as const), pieces }),
);
type Act = typeof act extends fc.Arbitrary<infer One> ? One : never;

/** The rules told a second time, without a database: what lies where, and which bin is the usual one. */
interface Told {
  home: string;
  bins: Map<string, number>;
}

/** Carries an act out by hand; false where it must be refused. */
function tell(told: Told, step: Act): boolean {
  const there = (name: string) => told.bins.get(name) ?? 0;
  const put = (name: string, by: number) => told.bins.set(name, there(name) + by);
  const all = [...told.bins.values()].reduce((sum, one) => sum + one, 0);
  if (step.act === "receipt") put(step.bin ?? told.home, step.pieces);
  else if (step.act === "count") told.bins.set(step.bin, step.pieces);
  else if (step.act === "between") {
    if (step.from === step.to || there(step.from) < step.pieces) return false;
    put(step.from, -step.pieces);
    put(step.to, step.pieces);
    if (step.home) told.home = step.to;
  } else {
    const named = step.act === "scrap" ? step.bin : undefined;
    if ((named === undefined ? all : there(named)) < step.pieces) return false;
    // Piece by piece, from the usual bin while it has one, then the bin that was fullest when it began.
    const full = new Map(told.bins);
    for (let piece = 0; piece < step.pieces; piece++) {
      const [from] =
        named === undefined
          ? BINS.filter((name) => there(name) > 0).toSorted(
              (x, y) =>
                Number(y === told.home) - Number(x === told.home) ||
                (full.get(y) ?? 0) - (full.get(x) ?? 0) ||
                BINS.indexOf(x) - BINS.indexOf(y),
            )
          : [named];
      put(from as string, -1);
    }
  }
  return true;
}

async function carryOut(partId: number, step: Act): Promise<void> {
  const milli = step.pieces * 1000;
  if (step.act === "receipt")
    await recordMove(a, {
      partId,
      kind: "receipt",
      quantityMilli: milli,
      bin: step.bin,
      unitCostE4: step.cost,
    });
  else if (step.act === "scrap")
    await recordMove(a, { partId, kind: "scrap", quantityMilli: milli, bin: step.bin, why: "burred" });
  else if (step.act === "count")
    await countPart(a, {
      partId,
      bin: step.bin,
      countedMilli: milli,
      seenMilli: (await lying(a, partId))[step.bin] ?? 0,
    });
  else if (step.act === "between") {
    const { version } = await a.read.part.findUniqueOrThrow({
      where: { id: partId },
      select: { version: true },
    });
    await moveBetweenBins(a, {
      partId,
      from: step.from,
      to: step.to,
      quantityMilli: milli,
      home: step.home ? { version } : undefined,
    });
  } else {
    const { onHandMilli } = await a.read.part.findUniqueOrThrow({
      where: { id: partId },
      select: { onHandMilli: true },
    });
    if (onHandMilli < milli) throw new Refusal("Not there.", "Take less.");
    const { reservationId } = await a.write((tx) =>
      reserveIn(tx, a, { jobId: job, partId, wantedMilli: milli }),
    );
    // biome-ignore lint/correctness/useHookAtTopLevel: parts are used here, no React hook
    await useReserved(a, { reservationId, quantityMilli: milli });
  }
}

it("bins hold what a replay by hand says and what the moves add up to, after any run of acts", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(act, { minLength: 1, maxLength: 20 }), async (acts) => {
      const partId = await binnedPart(a);
      const told: Told = { home: "A", bins: new Map() };
      for (const step of acts) {
        const refused = await carryOut(partId, step).then(
          () => false,
          (cause: unknown) => {
            if (cause instanceof Refusal) return true;
            throw cause;
          },
        );
        expect(refused, JSON.stringify(step)).toBe(!tell(told, step));
      }
      const by = Object.fromEntries(
        BINS.flatMap((name) => (told.bins.get(name) ? [[name, (told.bins.get(name) ?? 0) * 1000]] : [])),
      );
      expect(await lying(a, partId)).toEqual(by);
      const rows = await a.read.move.findMany({
        where: { partId },
        select: { kind: true, bin: true, quantityMilli: true, unitCostE4: true },
        orderBy: { id: "asc" },
      });
      const replay = new Map<string, number>();
      for (const row of rows) replay.set(row.bin, (replay.get(row.bin) ?? 0) + row.quantityMilli);
      expect(Object.fromEntries([...replay].filter(([, milli]) => milli !== 0))).toEqual(by);
      const part = await a.read.part.findUniqueOrThrow({
        where: { id: partId },
        select: { onHandMilli: true, averageE4: true, bin: true },
      });
      expect(part.onHandMilli).toBe(Object.values(by).reduce((sum, milli) => sum + milli, 0));
      expect(part.bin).toBe(told.home);
      // Costs are those of the same ledger without its moves between bins.
      const sold = rows.filter((row) => row.kind !== "betweenBins");
      expect(movingAverage(rows)).toEqual(movingAverage(sold));
    }),
    { numRuns: 40 },
  );
  expect(await problemsOf(a)).toEqual([]);
}, 240_000);

it("of two people who move the last one to different bins, one does and the other is told where it is", async () => {
  const partId = await binnedPart(a, { opening: "1" });
  const answers = await Promise.allSettled(
    ["B", "C"].map((to) => moveBetweenBins(a, { partId, from: "A", to, quantityMilli: 1_000 })),
  );
  expect(answers.filter((answer) => answer.status === "fulfilled")).toHaveLength(1);
  const [lost] = answers.filter((answer) => answer.status === "rejected");
  expect(lost?.reason).toMatchObject({
    kind: "conflict",
    message: expect.stringMatching(/^None of .* lies in bin A\.$/),
    remedy: expect.stringMatching(/There is 1 in bin [BC]/),
  });
  expect(Object.values(await lying(a, partId))).toEqual([1_000]);
});

it("two processes emptying one bin into two others never move a piece twice, and neither sees an error", async () => {
  const THERE = 120;
  const partId = await binnedPart(a, { opening: String(THERE) });
  const [one, two] = await atOnce<{ moved: number; refused: number; errors: string[] }>(
    ["B", "C"].map((to) => ["tests/support/moveMany.ts", a.slug, String(partId), "A", to, String(THERE)]),
  );
  if (!one || !two) throw new Error("two processes were asked for");
  expect([...one.errors, ...two.errors]).toEqual([]);
  expect(one.moved + two.moved).toBe(THERE);
  expect(one.refused + two.refused).toBe(THERE);
  // It was a race: each began before the other had finished.
  expect(Math.max(one.began, two.began)).toBeLessThan(Math.min(one.ended, two.ended));
  const { A = 0, B = 0, C = 0 } = await lying(a, partId);
  expect([A, B, C]).toEqual([0, one.moved * 1000, two.moved * 1000]);
  expect(await problemsOf(a)).toEqual([]);
}, 120_000);

it("the migration gives every move so far its part's bin, and lets nobody change one afterwards", async () => {
  const url = postgresUrl();
  const provider = url ? "postgresql" : "sqlite";
  const list = migrations("shop", provider);
  const at = list.findIndex((each) => each.name === "0007_bins");
  const when = "'2026-01-01T00:00:00.000Z'";
  const before = `
    INSERT INTO "Part" ("id", "code", "name", "kind", "bin", "onHandMilli", "searchKey", "createdAt") VALUES
      (1, 'a', 'a', 'jet', 'A1', 3000, 'a', ${when}), (2, 'b', 'b', 'jet', '', 2000, 'b', ${when}), (3, 'c', 'c', 'jet', 'C1', 0, 'c', ${when});
    INSERT INTO "Move" ("partId", "kind", "quantityMilli", "at") VALUES
      (1, 'opening', 5000, ${when}), (1, 'use', -2000, ${when}), (2, 'opening', 2000, ${when});`;
  const run = async (exec: (sql: string) => Promise<unknown>, all: (sql: string) => Promise<unknown[]>) => {
    for (const { sql } of list.slice(0, at)) await exec(sql);
    await exec(before);
    await exec(list[at]?.sql ?? "");
    expect(await all(`SELECT "partId", "bin", "quantityMilli" FROM "Move" ORDER BY "id"`)).toEqual([
      { partId: 1, bin: "A1", quantityMilli: 5_000 },
      { partId: 1, bin: "A1", quantityMilli: -2_000 },
      { partId: 2, bin: "", quantityMilli: 2_000 },
    ]);
    expect(await all(`SELECT "partId", "bin", "onHandMilli" FROM "PartBin" ORDER BY "id"`)).toEqual([
      { partId: 1, bin: "A1", onHandMilli: 3_000 },
      { partId: 2, bin: "", onHandMilli: 2_000 },
    ]);
    await expect(exec(`UPDATE "Move" SET "bin" = 'B9'`)).rejects.toThrow(/only grows/);
    await exec(
      `INSERT INTO "Move" ("partId", "kind", "quantityMilli", "bin", "at") VALUES (1, 'betweenBins', -1000, 'A1', ${when})`,
    );
  };
  if (url)
    await inPostgres(url, async (client) => {
      await client.query(`CREATE SCHEMA "bins_before"; SET search_path TO "bins_before"`);
      await run(
        (sql) => client.query(sql),
        async (sql) => (await client.query(sql)).rows,
      );
      await client.query(`DROP SCHEMA "bins_before" CASCADE`);
    });
  else {
    const db = new Database(":memory:");
    await run(
      async (sql) => db.exec(sql),
      async (sql) => db.prepare(sql).all(),
    );
    db.close();
  }
});
