import Database from "better-sqlite3";
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { createBike } from "@/lib/data/bikes/bikes";
import { rowsMatching } from "@/lib/data/common/narrow";
import { changeCustomer, createCustomer, listCustomers } from "@/lib/data/customers/customers";
import { runImport } from "@/lib/data/imports/run";
import { offerPart } from "@/lib/data/orders/offers";
import { searchAll } from "@/lib/data/search/search";
import { listParts } from "@/lib/data/stock/parts";
import type { MigrationTarget } from "@/lib/db/engine";
import { postgresUrl } from "@/lib/db/folders";
import { indexWords } from "@/lib/db/migrate";
import { applyMigrations, migrations } from "@/lib/db/migrations";
import { inPostgres } from "@/lib/db/postgres";
import { idsMatching } from "@/lib/db/search";
import { type ShopHandle, shopFile, shopStore } from "@/lib/db/shop";
import { searchKey, searchWords } from "@/lib/domain/searchKey";
import { NewBikeSchema } from "@/lib/schemas/bikes";
import { CustomerQuery, CustomerSchema } from "@/lib/schemas/customers";
import { ImportSchema } from "@/lib/schemas/imports";
import { PartSupplierSchema } from "@/lib/schemas/orders";
import { SEARCH } from "@/lib/server/work";
import { oneJob } from "../support/oneJob";
import { type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
let customerId: number;
let bikeId: number;
beforeAll(async () => {
  shops = await twoShops();
  const { a } = shops;
  customerId = await createCustomer(a, CustomerSchema.parse({ name: "Bjørg Åsen", phone: "0400 555 123" }));
  const bike = {
    card: "new",
    make: "Tarrant",
    model: "Drover 580",
    displacementCc: "639",
    cylinders: "1",
    carburettors: "1",
    carburettorType: "constant vacuum",
  };
  bikeId = await createBike(
    a,
    NewBikeSchema.parse({ ...bike, customerId: String(customerId), plate: "S 12-AB" }),
  );
  const parts = Array.from(
    { length: 12 },
    (_, at) => `HX-${1000 + at * 25},Main jet HX ${100 + at * 2.5}`,
  ).join("\n");
  await runImport(
    a,
    ImportSchema.parse({ noun: "parts", text: `code,name\n${parts}`, map: { code: "0", name: "1" } }),
  );
  await a.write(async (tx) => {
    for (const number of [1042, 1043, 11042])
      await tx.quote.create({
        data: {
          number: String(number),
          sequence: number,
          customerId,
          bikeId,
          title: "Open-road breathing",
          validUntil: "2026-12-09",
          searchKey: searchKey(number, "Open-road breathing", "Bjørg Åsen"),
          createdAt: a.now,
        },
      });
  });
});

const groups = async (text: string, shop = shops.a) =>
  Object.fromEntries((await searchAll(shop, text)).map((each) => [each.noun, each]));

it("a name finds the customer, the bike and the quotes, whatever its marks", async () => {
  const hits = await groups("bjorg  åsen");
  expect(Object.keys(hits)).toEqual(["customers", "bikes", "quotes"]);
  expect(hits.customers?.hits).toEqual([
    {
      noun: "customers",
      id: customerId,
      label: "Bjørg Åsen",
      sub: "0400 555 123",
      href: `/s/${shops.a.slug}/customers/${customerId}`,
    },
  ]);
  expect(hits.bikes?.hits[0]).toMatchObject({
    id: bikeId,
    label: "Tarrant Drover 580",
    sub: "S 12-AB · Bjørg Åsen",
  });
});
it("a plate or a phone number is found without its spaces", async () => {
  expect((await groups("s12ab")).bikes?.hits).toHaveLength(1);
  expect((await groups("0400555123")).customers?.hits).toHaveLength(1);
});
it("a number finds that document before others that hold it", async () => {
  const { quotes } = await groups("Q1042");
  expect(quotes?.hits.map((hit) => hit.label)).toEqual(["Quote 1042"]);
  expect((await groups("1042")).quotes?.hits.map((hit) => hit.label)).toEqual(["Quote 1042", "Quote 11042"]);
});
it("more hits than eight are cut, and it says so", async () => {
  const { parts } = await groups("main jet");
  expect(parts).toMatchObject({ more: true });
  expect(parts?.hits).toHaveLength(8);
  expect((await groups("hx 1025")).parts?.hits.map((hit) => hit.label)).toEqual(["HX-1025"]);
});
it("nothing typed finds nothing, and odd signs break nothing", async () => {
  for (const text of ["", "   ", "'; drop table Customer; --", "99999999999999999999", "\\", "()[]*"])
    expect(await searchAll(shops.a, text)).toEqual([]);
});
it("another shop's records are never found", async () => {
  for (const text of ["bjorg", "1042", "hx", "s12ab"]) expect(await searchAll(shops.b, text)).toEqual([]);
});

const labels = async (text: string, noun: string) => (await groups(text))[noun]?.hits.map((hit) => hit.label);

it("a word of one or two letters finds all that hold it, alone and beside a longer one", async () => {
  expect(await labels("jø", "customers")).toEqual(["Bjørg Åsen"]);
  expect(await labels("en", "customers")).toEqual(["Bjørg Åsen"]);
  expect(await labels("x bjorg", "customers")).toBeUndefined();
  expect(await labels("5 bjorg", "customers")).toEqual(["Bjørg Åsen"]);
  expect(await labels("dr bjorg", "bikes")).toEqual(["Tarrant Drover 580"]);
  expect(await labels("zq", "parts")).toBeUndefined();
  expect(await labels("jet 12", "parts")).toEqual(["HX-1125", "HX-1200", "HX-1225", "HX-1250", "HX-1275"]);
});
it("what a query language would read as its own signs is read as letters", async () => {
  for (const text of [
    '"main"',
    "main*",
    "NEAR(main jet)",
    "jet AND NOT main",
    "words:jet",
    "-jet",
    "^jet",
    "je_",
  ])
    expect(Object.keys(await groups(text)), text).toEqual(text === "je_" ? ["parts"] : []);
  expect(await labels("hx%125", "parts")).toEqual(["HX-1125", "HX-1250"]);
  expect(await labels("main and jet", "parts")).toBeUndefined();
  expect(await groups("nothing\u0000here")).toEqual({});
});
it("a part is found by its size in any writing, and by every supplier's code for it", async () => {
  const { a, b } = shops;
  const part = await a.write((tx) =>
    tx.part.create({
      data: {
        code: "K-9",
        name: "Pilot",
        kind: "jet",
        sizeMilli: 57_500,
        searchKey: searchKey("K-9", "Pilot", "jet"),
        createdAt: a.now,
      },
    }),
  );
  const offer = (supplier: string, code: string) =>
    offerPart(
      a,
      PartSupplierSchema.parse({ partId: `${part.id}`, supplier, code, pack: "", least: "", leadDays: "" }),
    );
  await offer("Ridge Brass", "X/77-Ø");
  await offer("Marl", "marl 4411");
  for (const text of ["57.5", "57,5", "#57.5", "pilot 57,5", "x/77-ø", "77-o pilot", "4411", "4411 x/77"])
    expect(await labels(text, "parts"), text).toEqual(["K-9"]);
  await offer("Marl", "marl 9922");
  expect(await labels("4411", "parts")).toBeUndefined();
  expect(await labels("9922", "parts")).toEqual(["K-9"]);
  await a.write((tx) => tx.part.update({ where: { id: part.id }, data: { sizeMilli: 60_000 } }));
  expect(await labels("57.5", "parts")).toBeUndefined();
  expect(await labels("9922 60", "parts")).toEqual(["K-9"]);
  await a.write((tx) => tx.partSupplier.deleteMany({ where: { partId: part.id } }));
  expect(await labels("9922", "parts")).toBeUndefined();
  await a.write((tx) => tx.part.delete({ where: { id: part.id } }));
  expect(await labels("k-9", "parts")).toBeUndefined();
  expect((await listParts(b, { q: "57.5" })).rows).toEqual([]);
});
it("a changed or deleted record is found by what it is now", async () => {
  const { a } = shops;
  const id = await createCustomer(a, CustomerSchema.parse({ name: "Runa Vik" }));
  const change = { ...CustomerSchema.parse({ name: "Runa Holm" }), version: 1 };
  await changeCustomer(a, id, change as never);
  expect(await labels("runa vik", "customers")).toBeUndefined();
  expect(await labels("runa holm", "customers")).toEqual(["Runa Holm"]);
  await a.write((tx) => tx.customer.delete({ where: { id } }));
  expect(await labels("runa", "customers")).toBeUndefined();
});
it("nothing that was rolled back is found", async () => {
  const { a } = shops;
  const failing = a.write(async (tx) => {
    await tx.customer.create({ data: { name: "Ghost", searchKey: "ghost", createdAt: a.now } });
    throw new Error("rolled back on purpose");
  });
  await expect(failing).rejects.toThrow("on purpose");
  expect(await groups("ghost")).toEqual({});
});
it("who may not see invoices finds none, and who may finds them by number and name", async () => {
  const { a } = shops;
  const { jobId, customerId } = await oneJob(a);
  await a.write((tx) =>
    tx.invoice.create({
      data: {
        jobId,
        customerId,
        number: 70_707,
        searchKey: searchKey("70707 Solveig Tind"),
        createdAt: a.now,
      },
    }),
  );
  for (const text of ["70707", "solveig tind"]) {
    expect(Object.keys(await groups(text))).toEqual(["invoices"]);
    expect(await searchAll(a, text, { invoices: false })).toEqual([]);
  }
});
it("a list names all its hits page by page, whether they are few enough to be named by id or not", async () => {
  const { b } = shops;
  const names = Array.from({ length: 620 }, (_, n) => `Crowd ${String((n * 7) % 620).padStart(3, "0")}`);
  await b.write((tx) =>
    tx.customer.createMany({
      data: names.map((name) => ({ name, searchKey: searchKey(name), createdAt: b.now })),
    }),
  );
  const all = async (q: string) => {
    const seen: string[] = [];
    for (let after: number | null = 0; after !== null; ) {
      const page = await listCustomers(
        b,
        CustomerQuery.parse({ q, ...(after ? { after: `${after}` } : {}) }),
      );
      seen.push(...page.rows.map((row) => row.name));
      after = page.next;
    }
    return seen;
  };
  expect(await all("crowd")).toEqual([...names].sort());
  expect(await all("crowd 1")).toEqual(names.filter((name) => name.includes("1")).sort());
  const [customers] = await searchAll(b, "crowd");
  expect(customers?.hits.map((hit) => hit.label)).toEqual([...names].sort().slice(0, 8));
});

it("trigrams and walking find exactly what looking into every key finds", {
  timeout: 120_000,
}, async () => {
  const { b } = shops;
  // Few letters, so that words often meet; signs that SQL, LIKE and FTS5 read as their own; letters beyond 16 bits.
  const letter = fc.constantFrom(
    ..."aab1",
    " ",
    "-",
    '"',
    "'",
    "*",
    "%",
    "_",
    "\\",
    "(",
    ":",
    "Ø",
    "é",
    "😀",
    "字",
    "\u0000",
  );
  const text = (maxLength: number) => fc.string({ unit: letter, maxLength });
  await b.write((tx) => tx.customer.deleteMany({}));
  let round = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.array(text(12), { minLength: 1, maxLength: 12 }),
      fc.array(fc.oneof(text(6), fc.string({ unit: "binary", maxLength: 4 })), {
        minLength: 1,
        maxLength: 8,
      }),
      async (rows, queries) => {
        const mark = `round${++round}`;
        const keys = rows.map((row) => searchKey(row, mark));
        await b.write((tx) =>
          tx.customer.createMany({
            data: keys.map((key) => ({ name: key, searchKey: key, createdAt: b.now })),
          }),
        );
        const stored = await b.read.customer.findMany({
          where: { searchKey: { contains: mark } },
          select: { id: true, searchKey: true },
          orderBy: { id: "asc" },
        });
        const changed = stored[0];
        if (changed) {
          changed.searchKey = searchKey(queries[0] ?? "", mark, "changed");
          await b.write((tx) =>
            tx.customer.update({ where: { id: changed.id }, data: { searchKey: changed.searchKey } }),
          );
        }
        const gone = stored.length > 2 ? stored.pop() : undefined;
        if (gone) await b.write((tx) => tx.customer.delete({ where: { id: gone.id } }));
        for (const query of [...queries, mark]) {
          const words = searchWords(`${query} ${mark}`);
          const expected = stored
            .filter(({ searchKey: key }) => words.every((word) => key.includes(word)))
            .map(({ id }) => id);
          for (const most of [0, 500])
            expect(
              await b.read.customer
                .findMany({
                  where: await rowsMatching(b, "Customer", `${query} ${mark}`, most),
                  select: { id: true },
                  orderBy: { id: "asc" },
                })
                .then((found) => found.map(({ id }) => id)),
              JSON.stringify({ query, most }),
            ).toEqual(expected);
        }
        // Without the round's mark, words of any length stand alone against all rounds' rows.
        const every = await b.read.customer.findMany({
          select: { id: true, searchKey: true },
          orderBy: { id: "desc" },
        });
        for (const query of queries) {
          const words = searchWords(query).map((word) => ({ text: word }));
          const expected = every.filter(({ searchKey: key }) =>
            words.every((word) => key.includes(word.text)),
          );
          const hits = await idsMatching(b, [{ table: "Customer", most: 20 }], words);
          expect(
            hits.map((hit) => hit.id),
            JSON.stringify(query),
          ).toEqual(words.length === 0 ? [] : expected.slice(0, 20).map(({ id }) => id));
        }
      },
    ),
    { numRuns: 60 },
  );
});

const url = postgresUrl() ?? "";

it("what a shop held before it had trigrams is found by them", async () => {
  const database = `older_${process.pid}`;
  const where: MigrationTarget = url
    ? { provider: "postgresql", url, schema: database }
    : { provider: "sqlite", file: shopFile(database) };
  const all = migrations("shop", where.provider);
  const before = all[all.findIndex(({ name }) => name.endsWith("_search")) - 1]?.name;
  const held = `INSERT INTO "Customer" ("id", "name", "searchKey", "createdAt") VALUES (4, 'Ann', 'ann elder', '2026-01-01'), (9, 'Bo', 'bo younger', '2026-01-01');
     INSERT INTO "Part" ("id", "code", "name", "kind", "sizeMilli", "searchKey", "createdAt") VALUES (7, 'K-9', 'Pilot', 'jet', 57500, 'k-9 pilot', '2026-01-01');
     INSERT INTO "Supplier" ("id", "name", "searchKey", "createdAt") VALUES (1, 'Marl', 'marl', '2026-01-01');
     INSERT INTO "PartSupplier" ("partId", "supplierId", "code", "codeKey") VALUES (7, 1, 'ML 4411', 'ml 4411');`;
  if (url) {
    await inPostgres(url, (client) => client.query(`CREATE SCHEMA "${database}"`));
    await applyMigrations("shop", where, before);
    await inPostgres(url, async (client) => {
      await client.query(`SET search_path TO "${database}"`);
      await client.query(held);
    });
  } else {
    await applyMigrations("shop", where, before);
    const file = new Database(shopFile(database));
    file.exec(held);
    file.close();
  }
  await applyMigrations("shop", where);
  const older: ShopHandle = { ...shops.a, database, read: shopStore({ ...shops.a, database }).read };
  const ids = async (...words: { text: string; size?: number }[]) =>
    (
      await idsMatching(
        older,
        [
          { table: "Customer", most: 9 },
          { table: "Part", most: 9 },
        ],
        words,
      )
    ).map(({ id }) => id);
  expect(await ids({ text: "elder" })).toEqual([4]);
  expect(await ids({ text: "nger" })).toEqual([9]);
  expect(await ids({ text: "er" })).toEqual([9, 4]);
  expect(await ids({ text: "4411" }, { text: "57,5", size: 57_500 })).toEqual([7]);
});

it.runIf(!url)(
  "putting the trigrams in order, as a round does every day, leaves one piece that finds the same",
  async () => {
    const { a } = shops;
    const pieces = () => {
      const file = new Database(shopFile(a.database), { readonly: true });
      const { n } = file.prepare(`SELECT count(DISTINCT segid) AS n FROM "PartSearch_idx"`).get() as {
        n: number;
      };
      file.close();
      return n;
    };
    const before = await groups("hx 1");
    expect(pieces()).toBeGreaterThan(1);
    await SEARCH.run(a);
    expect(pieces()).toBe(1);
    expect(await groups("hx 1")).toEqual(before);
  },
);

// By --plain-role nobody may make the extension, and all else here is found without it.
describe.runIf(url && new URL(url).username === "postgres")("on PostgreSQL (npm run test:postgres)", () => {
  const LIKE = `"words" LIKE '%hx-1025%'`;

  it("the extension stands in no shop's schema, and every shop has its indexes", async () => {
    const { a, b } = shops;
    await inPostgres(url, async (client) => {
      const place = await client.query(
        `SELECT extnamespace::regnamespace::text AS place FROM pg_extension WHERE extname = 'pg_trgm'`,
      );
      expect(place.rows).toEqual([{ place: '"shared-trigrams"' }]);
      for (const { database } of [a, b]) {
        const made = await client.query(
          `SELECT count(*)::int AS n FROM pg_indexes WHERE schemaname = $1 AND indexdef LIKE '%gin_trgm_ops%'`,
          [database],
        );
        expect(made.rows).toEqual([{ n: 6 }]);
      }
      await client.query("SET enable_seqscan = off");
      await client.query("SET enable_indexscan = off");
      const plan = await client.query(`EXPLAIN SELECT "id" FROM "${a.database}"."PartSearch" WHERE ${LIKE}`);
      expect(JSON.stringify(plan.rows)).toContain("PartSearch_words_idx");
    });
  });

  it("where the extension is refused all is found by scanning, and the indexes come once it is allowed", async () => {
    const base = `plain_${process.pid}`;
    const own = new URL(url);
    await inPostgres(url, async (client) => {
      await client.query(`CREATE ROLE "${base}" LOGIN PASSWORD 'plain'`);
      await client.query(`CREATE DATABASE "${base}"`);
    });
    own.pathname = `/${base}`;
    await inPostgres(own.href, (admin) => admin.query(`CREATE SCHEMA "shop_x" AUTHORIZATION "${base}"`));
    const admin = own.href;
    own.username = base;
    own.password = "plain";
    await applyMigrations("shop", { provider: "postgresql", url: own.href, schema: "shop_x" });
    expect(await indexWords(own.href, "shop_x")).toBe(false);
    await inPostgres(own.href, (client) =>
      client.query(
        `INSERT INTO "shop_x"."Part" ("code", "name", "kind", "searchKey", "createdAt") VALUES ('HX-1025', 'Jet', 'jet', 'hx-1025 jet', now())`,
      ),
    );
    const found = async () =>
      inPostgres(own.href, async (client) => {
        const { rows } = await client.query(`SELECT "id" FROM "shop_x"."PartSearch" WHERE ${LIKE}`);
        return rows.length;
      });
    expect(await found()).toBe(1);
    await inPostgres(admin, (client) => client.query("CREATE EXTENSION pg_trgm"));
    expect(await indexWords(own.href, "shop_x")).toBe(true);
    expect(await indexWords(own.href, "shop_x")).toBe(true);
    expect(await found()).toBe(1);
    await inPostgres(url, async (client) => {
      await client.query(`DROP DATABASE "${base}" WITH (FORCE)`);
      await client.query(`DROP ROLE "${base}"`);
    });
  });
});
