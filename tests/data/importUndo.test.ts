import { beforeEach, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { changeCustomer } from "@/lib/data/customers/customers";
import { listImports } from "@/lib/data/imports/list";
import { runImport } from "@/lib/data/imports/run";
import { undoImport } from "@/lib/data/imports/undo";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { CustomerSchema } from "@/lib/schemas/customers";
import { fileOf } from "../support/imports/fileOf";
import { type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
beforeEach(async () => {
  shops = await twoShops();
});

const newest = async (shop: ShopHandle) => (await listImports(shop))[0]?.id ?? 0;
const PEOPLE = "Navn;Tlf\nKari Fossvik;90011222\nTor Myrholt;90011333";
const BIKES =
  "Eier;Merke;Modell;Reg.nr;Slagvolum;Forgasser\nKari Fossvik;Orme;Twin 750;AB 1234;745;vakuum\nTor Myrholt;Orme;Twin 750;AB 1235;745;vakuum";

describe("a whole import taken back", () => {
  it("removes what it added, puts back what it changed, and can be brought in again", async () => {
    const { a, b } = shops;
    await runImport(b, fileOf("customers", PEOPLE));
    await runImport(a, fileOf("customers", PEOPLE));
    const changed = await runImport(
      a,
      fileOf("customers", `${PEOPLE.replace("90011333", "90011444")}\nLiv Grålid;90011555`),
    );
    // Tor has another phone now: nobody takes him for the same without being asked.
    expect(changed).toMatchObject({ added: 2, changed: 0 });
    expect(await undoImport(a, await newest(a))).toEqual({ removed: 2, restored: 0, putAway: 0 });
    const update = fileOf("customers", PEOPLE.replace("90011333", "90011444"), { doubles: "update" });
    expect(await runImport(a, update)).toMatchObject({ added: 0, changed: 1 });
    expect(await undoImport(a, await newest(a))).toEqual({ removed: 0, restored: 1, putAway: 0 });
    const people = await a.read.customer.findMany({
      select: { name: true, phone: true },
      orderBy: { id: "asc" },
    });
    expect(people).toEqual([
      { name: "Kari Fossvik", phone: "90011222" },
      { name: "Tor Myrholt", phone: "90011333" },
    ]);
    await expect(undoImport(a, await newest(a))).rejects.toThrow("taken back already");
    // The key that the second file had learned is gone with it.
    expect(await runImport(a, update)).toMatchObject({ changed: 1 });
    expect(await b.read.customer.count()).toBe(2);
    await expect(undoImport(b, 999)).rejects.toThrow("no such import");
  });

  it("takes bikes and the cards made for them, and refuses people who have bikes by their names", async () => {
    const { a } = shops;
    await runImport(a, fileOf("customers", PEOPLE));
    const people = await newest(a);
    await runImport(a, fileOf("bikes", BIKES));
    const bikes = await newest(a);
    await expect(undoImport(a, people)).rejects.toThrow(
      "customers.csv cannot be taken back: Kari Fossvik has 1 bike; Tor Myrholt has 1 bike. Nothing was changed.",
    );
    expect(await a.read.customer.count()).toBe(2);
    expect(await undoImport(a, bikes)).toMatchObject({ removed: 2 });
    expect([
      await a.read.bike.count(),
      await a.read.modelCard.count(),
      await a.read.carburettor.count(),
    ]).toEqual([0, 0, 0]);
    expect(await undoImport(a, people)).toMatchObject({ removed: 2 });
    expect(await a.read.customer.count()).toBe(0);
  });

  it("refuses what was edited since, and changes nothing then", async () => {
    const { a } = shops;
    await runImport(a, fileOf("customers", PEOPLE));
    const tor = await a.read.customer.findFirstOrThrow({ where: { name: "Tor Myrholt" } });
    await changeCustomer(a, tor.id, CustomerSchema.parse({ name: "Tor Myrholt", phone: "1", version: "1" }));
    await expect(undoImport(a, await newest(a))).rejects.toThrow("Tor Myrholt was changed since");
    expect(await a.read.customer.count()).toBe(2);
    expect((await listImports(a))[0]?.undoneAt).toBeNull();
  });

  it("books opening stock out again, since the ledger only grows, and in once more when the file comes again", async () => {
    const { a } = shops;
    const list = "Varenr;Navn;Kost;Antall\nHX-1;Hoveddyse;3,40;5\nHX-2;Hoveddyse;3,40;";
    await runImport(a, fileOf("parts", list, { mark: "," }));
    expect(await undoImport(a, await newest(a))).toEqual({ removed: 1, restored: 0, putAway: 1 });
    const parts = () =>
      a.read.part.findMany({
        select: { code: true, active: true, onHandMilli: true },
        orderBy: { id: "asc" },
      });
    expect(await parts()).toEqual([{ code: "HX-1", active: false, onHandMilli: 0 }]);
    expect(
      await a.read.move.findMany({ select: { kind: true, quantityMilli: true }, orderBy: { id: "asc" } }),
    ).toEqual([
      { kind: "opening", quantityMilli: 5000 },
      { kind: "count", quantityMilli: -5000 },
    ]);
    await runImport(a, fileOf("parts", list, { mark: "," }));
    expect(await parts()).toEqual([
      { code: "HX-1", active: true, onHandMilli: 5000 },
      { code: "HX-2", active: true, onHandMilli: 0 },
    ]);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("refuses parts that moved since, by their codes", async () => {
    const { a } = shops;
    await runImport(a, fileOf("parts", "Varenr;Navn;Antall\nHX-1;Hoveddyse;5"));
    const part = await a.read.part.findFirstOrThrow({ where: { code: "HX-1" } });
    await recordMove(a, { partId: part.id, kind: "scrap", quantityMilli: 1000 });
    await expect(undoImport(a, await newest(a))).rejects.toThrow("HX-1 has 1 more move in stock");
  });
});
