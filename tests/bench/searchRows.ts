import Database from "better-sqlite3";
import { searchAll } from "@/lib/data/search/search";
import { listDrawer } from "@/lib/data/stock/drawer";
import { findScanned } from "@/lib/data/stock/find";
import { listParts } from "@/lib/data/stock/parts";
import { idsMatching } from "@/lib/db/search";
import { shopFile } from "@/lib/db/shop";
import { SEARCH } from "@/lib/server/work";
import { benchShops, type SizedShop } from "./benchShops";
import { type Goal, medianWithin, type Row, rowOf, timed, timesFloor } from "./floor";

/** Searching, and the drawer, in a small shop and in a large one. */
export async function searchRows(): Promise<Row[]> {
  const rows: Row[] = [];
  for (const shop of await benchShops()) rows.push(...(await searchesIn(shop)));
  return rows;
}

async function searchesIn({ shop, count }: SizedShop): Promise<Row[]> {
  // As a round of the server does every day.
  await SEARCH.run(shop);
  const raw = new Database(shopFile(shop.database), { readonly: true });
  const scan = raw.prepare(`SELECT id FROM "Customer" WHERE instr(searchKey, ?) LIMIT 9`);
  const parts = raw.prepare(
    `SELECT p.id, p.code, p.name, p.bin, p.onHandMilli, p.reservedMilli FROM "PartSearch" CROSS JOIN "Part" p ON p.id = -"PartSearch".rowid WHERE "PartSearch" MATCH ? ORDER BY p.code LIMIT 51`,
  );
  const drawer = raw.prepare(
    `SELECT id, code, name, kind, family, sizeMilli, convention, onHandMilli, reservedMilli, onOrderMilli, pointMilli FROM "Part" WHERE family <> '' AND sizeMilli IS NOT NULL AND active = 1 ORDER BY family, sizeMilli LIMIT 2000`,
  );
  const tables = (["Customer", "Bike", "Quote", "Job", "Part", "Invoice"] as const).map((table) => ({
    table,
    most: 9,
  }));
  const n = count - 7;
  const compare = async (
    work: string,
    run: () => Promise<unknown>,
    floor: string,
    least: () => unknown,
    goal: Goal = medianWithin(1),
  ): Promise<Row> => {
    const [times, floorTimes] = [await timed(run, 150), await timed(least, 100)];
    return rowOf(`${work}, ${count} rows`, times, goal, floor, floorTimes);
  };
  const ids = (text: string) => idsMatching(shop, tables, [{ text }]);
  const like = (text: string) => [`raw scan of one noun`, () => scan.all(text)] as const;
  const found = (match: string) => [`raw SQL, FTS5`, () => parts.all(match)] as const;
  const rows = [
    await compare("search, ids of all nouns: one query", () => ids(`omer ${n}`), ...like(`omer ${n}`)),
    await compare("search, ids of all nouns: in no row", () => ids("gasket"), ...like("gasket")),
    await compare("search, whole view: few hits", () => searchAll(shop, `omer ${n}`), ...like(`omer ${n}`)),
    await compare("search, whole view: in every row", () => searchAll(shop, "customer"), ...like("customer")),
    await compare("search, whole view: two letters", () => searchAll(shop, "zq"), ...like("zq")),
    await compare(
      "parts by a word, list",
      () => listParts(shop, { q: `mount ${n}` }),
      ...found(`"mount" "${n}"`),
    ),
    await compare(
      "parts by size, list",
      () => listParts(shop, { q: "122,5" }),
      ...found(`{size} : "=122500="`),
    ),
    await compare(
      "parts by a word in most, list",
      () => listParts(shop, { q: "rubber" }),
      ...found(`"rubber"`),
    ),
    await compare("part by a scanned label", () => findScanned(shop, `RB/${n}-X`), ...found(`"rb/${n}-x"`)),
    await compare(
      "drawer, all families",
      () => listDrawer(shop),
      "raw SQL",
      () => drawer.all(),
      timesFloor(4),
    ),
  ];
  raw.close();
  return rows;
}
