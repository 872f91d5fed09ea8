import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { listLate } from "@/lib/data/bookings/late";
import { getJob } from "@/lib/data/jobs/get";
import { listJobs } from "@/lib/data/jobs/list";
import { getQuote } from "@/lib/data/quotes/get";
import { listQuotes } from "@/lib/data/quotes/list";
import { myNextJob } from "@/lib/data/today/mine";
import { getToday } from "@/lib/data/today/today";
import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { joinedReads } from "@/lib/db/joined/reads";
import { askerOf } from "@/lib/db/sharedClient";
import { closeShop, type ShopHandle, shopStore } from "@/lib/db/shop";
import { inRequest } from "@/lib/log/request";
import { askedTwice } from "../support/bothReads";
import { makeJob } from "../support/jobs";
import { readyToQuote, sentQuote } from "../support/quotes";
import { type TwoShops, twoShops } from "../support/shops";
import { FULL } from "../support/size";

let shops: TwoShops;
let quoteId: number;
let jobId: number;
beforeAll(async () => {
  shops = await twoShops();
  const ready = await readyToQuote(shops.a);
  await sentQuote(shops.a, ready);
  quoteId = (await shops.a.read.quote.findFirstOrThrow({ orderBy: { id: "desc" } })).id;
  jobId = (await makeJob(shops.a)).id;
});

const SEES = { quotes: true, invoices: true, stock: true, closing: true };
const plain = (shop: ShopHandle) => shopStore(shop).read;

/** How many statements a read asks for. */
async function statements(read: () => Promise<unknown>): Promise<number> {
  const about: { id: string; statements?: number } = { id: "test" };
  await inRequest(about, read);
  return about.statements ?? 0;
}

describe("reads of one moment", () => {
  it("answer what Prisma's client answers, in pages' own words", async () => {
    const shop = askedTwice(shops.a);
    expect((await getToday(shop, SEES)).bays.length).toBeGreaterThan(0);
    expect((await getJob(shop, jobId))?.steps.length).toBeGreaterThan(0);
    expect((await getQuote(shop, quoteId, { margin: true }))?.works.length).toBeGreaterThan(0);
    expect((await listQuotes(shop, {})).rows.length).toBeGreaterThan(0);
    expect((await listJobs(shop, {})).jobs.length).toBeGreaterThan(0);
    await listLate(shop);
    await myNextJob(shop);
  });

  it("are one statement, rows that they are linked with included, and tell of their own shop alone", async () => {
    const ask = ({ read }: ShopHandle) =>
      Promise.all([
        read.job.findMany({
          select: { number: true, bike: { select: { customer: { select: { name: true } } } } },
          orderBy: { id: "asc" },
          take: 5,
        }),
        read.quote.findFirst({
          include: { revisions: { include: { works: true } } },
          orderBy: { id: "asc" },
        }),
        read.part.count({ where: { active: true } }),
        read.part.aggregate({ _sum: { onHandMilli: true }, _min: { code: true }, _count: { id: true } }),
      ]);
    expect(await statements(() => ask(shops.a))).toBe(1);
    const [jobs, quote, parts] = await ask(shops.a);
    expect(jobs[0]).toMatchObject({ bike: { customer: { name: "Oda Fenn" } } });
    expect(quote?.revisions[0]?.works).toHaveLength(1);
    expect(parts).toBeGreaterThan(0);
    expect((await ask(shops.b)).slice(0, 3)).toEqual([[], null, 0]);
  });

  it("read a row with all that it is linked with, more than a hundred values in all", async () => {
    const bike = { include: { customer: true, modelCard: true } } as const;
    const ask = ({ read }: ShopHandle) =>
      read.job.findMany({
        include: {
          customer: true,
          bike,
          agreement: true,
          revision: { include: { quote: { include: { customer: true, bike } } } },
        },
        orderBy: { id: "asc" },
        take: 3,
      });
    const [job] = await ask(askedTwice(shops.a));
    const values = (row: object): number =>
      Object.values(row).reduce(
        (sum: number, value: unknown) =>
          sum +
          (value !== null && Object.getPrototypeOf(value) === Object.prototype ? values(value as object) : 1),
        0,
      );
    expect(values(job ?? {})).toBeGreaterThan(100);
    expect(job?.revision?.quote.bike.customer.name).toBe("Oda Fenn");
    expect(job?.agreement).toBeNull();
    expect(await statements(() => ask(shops.a))).toBe(1);
  });

  it("read fractions, instants, truths and kept JSON as they were written", async () => {
    const { a } = shops;
    await fc.assert(
      fc.asyncProperty(
        // Prisma writes 16 digits: of the very largest number that is one PostgreSQL cannot hold. No figure of a setting comes near.
        fc.double({ noNaN: true, min: -1e300, max: 1e300 }),
        fc.date({ min: new Date("1970-01-01"), max: new Date("2099-12-31"), noInvalidDate: true }),
        fc.jsonValue(),
        fc.string(),
        async (value, at, json, text) => {
          const facts = JSON.parse(JSON.stringify(json ?? {}));
          await a.write(async (tx) => {
            await tx.settingValue.updateMany({ data: { value } });
            await tx.job.update({
              where: { id: jobId },
              data: { startedAt: at, notes: text.replaceAll("\0", "") },
            });
            await tx.step.updateMany({ data: { tools: facts ?? {} } });
          });
          const ask = (read: ShopHandle["read"]) =>
            Promise.all([
              read.settingValue.findMany({ orderBy: { id: "asc" }, take: 3 }),
              read.job.findMany({
                where: { startedAt: { gte: at }, notes: { not: "x" } },
                orderBy: { id: "asc" },
              }),
              read.step.findMany({ where: { jobId }, orderBy: { id: "asc" }, take: 2 }),
              read.part.findMany({ select: { active: true }, orderBy: { id: "asc" }, take: 2 }),
            ]);
          expect(await ask(a.read)).toEqual(await ask(plain(a)));
        },
      ),
      { numRuns: FULL ? 300 : 20 },
    );
  });

  it("know every word that is asked here, and leave others to Prisma's client", async () => {
    const { read } = askedTwice(shops.a);
    const state = fc.constantFrom("waiting", "booked", "inWork", "ride", "ready", "closed");
    const instant = fc.constantFrom(shops.a.now, new Date(0), null);
    const number = fc.constantFrom(
      { gt: 1 },
      { lte: 2 },
      { not: 1 },
      { in: [1, 2, 3] },
      { notIn: [1] },
      { in: [] },
      1,
    );
    const one = fc.oneof(
      fc.record({ id: number }),
      fc.record({ state: fc.oneof(state, fc.record({ in: fc.array(state) }), fc.record({ not: state })) }),
      fc.record({
        arrivedAt: fc.oneof(instant, fc.record({ not: instant }), fc.constant({ lte: shops.a.now })),
      }),
      fc.record({ bike: fc.record({ plate: fc.constantFrom("", "SP 1", { contains: "S" }) }) }),
      fc.record({
        agreement: fc.constantFrom(null, { is: null }, { isNot: null }, { kind: "word" as const }),
      }),
      fc.record({
        steps: fc.constantFrom(
          { some: { state: "todo" as const } },
          { none: {} },
          { some: {} },
          { every: {} },
        ),
      }),
    );
    const where = fc.oneof(
      one,
      fc.record({ OR: fc.array(one, { maxLength: 3 }) }),
      fc.record({ NOT: one }),
      fc.record({ AND: fc.array(one, { maxLength: 3 }) }),
    );
    const orderBy = fc.constantFrom<
      Prisma.JobOrderByWithRelationInput | Prisma.JobOrderByWithRelationInput[]
    >(
      { id: "desc" as const },
      [{ arrivedAt: { sort: "asc" as const, nulls: "last" as const } }, { id: "asc" as const }],
      { bike: { plate: "asc" as const } },
    );
    await fc.assert(
      fc.asyncProperty(where, orderBy, fc.integer({ min: 0, max: 3 }), async (wanted, order, take) => {
        await read.job.findMany({
          where: wanted,
          orderBy: order,
          take,
          include: { steps: true, agreement: true },
        });
        await read.job.count({ where: wanted });
      }),
      { numRuns: FULL ? 2_000 : 80 },
    );
  });

  it("add up groups as Prisma's client does, in the same order", async () => {
    const { read } = askedTwice(shops.a);
    // Its types want to know at once which columns are asked for.
    const groupBy = read.move.groupBy as unknown as (given: object) => Promise<unknown[]>;
    const by = fc.constantFrom<("kind" | "partId" | "bin")[]>(
      ["kind"],
      ["partId"],
      ["kind", "partId", "bin"],
    );
    const where = fc.constantFrom<Prisma.MoveWhereInput>(
      {},
      { quantityMilli: { gt: 0 } },
      { part: { active: true }, jobId: null },
      { id: 0 },
    );
    const way = fc.constantFrom<"asc" | "desc">("asc", "desc");
    await fc.assert(
      fc.asyncProperty(
        by,
        where,
        way,
        fc.option(fc.integer({ min: 1, max: 3 }), { nil: undefined }),
        async (columns, wanted, order, take) => {
          const columnsInOrder = columns.map((name) => ({ [name]: order }));
          const given = {
            by: columns,
            where: wanted,
            _sum: { quantityMilli: true, unitCostE4: true },
            _min: { at: true },
            _max: { at: true },
            _count: { id: true },
          } as const;
          await groupBy({ ...given, orderBy: columnsInOrder, ...(take && { take }) });
          await groupBy({ ...given, orderBy: [{ _count: { id: order } }, ...columnsInOrder] });
        },
      ),
      { numRuns: FULL ? 300 : 30 },
    );
    expect(await groupBy({ by: ["kind"], _count: { id: true }, orderBy: { kind: "asc" } })).not.toEqual([]);
    const groups = ({ read: own }: ShopHandle) =>
      Promise.all([
        own.move.groupBy({ by: ["partId"], _sum: { quantityMilli: true } }),
        own.timeEntry.groupBy({ by: ["staffId"], where: { endedAt: null }, _count: { id: true } }),
        own.move.count(),
      ]);
    expect(await statements(() => groups(shops.a))).toBe(1);
    expect(await groups(shops.b)).toEqual([[], [], 0]);
  });

  it("fail as Prisma's client fails: without a row, without a key, for what a field cannot hold", async () => {
    const { job } = joinedReads(plain(shops.a), "shop", shops.a.database);
    await expect(job.findUniqueOrThrow({ where: { id: 0 } })).rejects.toMatchObject({ code: "P2025" });
    const none = undefined as unknown as number;
    await expect(job.findUnique({ where: { id: none } })).rejects.toThrow("Argument `where`");
    const long = 5 as unknown as string;
    await expect(job.findMany({ where: { title: long }, take: 1 })).rejects.toThrow("title");
  });

  it.runIf(!process.env.DATABASE_URL)(
    "go past Prisma's client on SQLite, each to its own shop, also after it was closed",
    async () => {
      const { a, b } = shops;
      const name = async (shop: ShopHandle) => {
        const ask = askerOf(plain(shop));
        const rows = await ask?.(`SELECT "name", ? FROM "Settings" WHERE "id" = ?`, [true, 1]);
        return rows?.[0];
      };
      const wanted = [
        [`Shop ${a.slug}`, 1],
        [`Shop ${b.slug}`, 1],
      ];
      expect(await Promise.all([name(a), name(b)])).toEqual(wanted);
      await closeShop(a.database);
      expect(await Promise.all([name(b), name(a)])).toEqual(wanted.toReversed());
      await expect(askerOf(plain(a))?.("SELECT nothing", [])).rejects.toThrow("nothing");
    },
  );
});
