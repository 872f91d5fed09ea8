import { beforeEach, describe, expect, it } from "vitest";
import { previewImport, runImport } from "@/lib/data/imports/run";
import type { ShopHandle } from "@/lib/db/shop";
import { fileOf } from "../support/imports/fileOf";
import { messyCustomers } from "../support/imports/messyCustomers";
import { type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
beforeEach(async () => {
  shops = await twoShops();
});

const everyone = (shop: ShopHandle) =>
  shop.read.customer.findMany({
    select: { id: true, name: true, phone: true, email: true, address: true, version: true },
    orderBy: { id: "asc" },
  });

describe("a messy list of 200 rows without a key column", () => {
  const messy = messyCustomers();

  it("ends without doubles, with the address put together, and the other shop stays empty", async () => {
    const { a, b } = shops;
    expect(messy.rows).toBe(200);
    const view = await runImport(a, fileOf("customers", messy.text));
    expect(view).toMatchObject({ rows: 200, added: messy.people, changed: 0, problems: [] });
    const all = await everyone(a);
    const named = Map.groupBy(all, (one) => one.name);
    expect([...named.values()].filter((same) => same.length > 1).map((same) => same.length)).toEqual([2]);
    expect(named.get("Kari Fossvik")?.map((one) => one.phone)).toEqual(["90000417", "40000001"]);
    expect(all[0]).toMatchObject({ address: "Storgata 0\n2663 Dovreskogen" });
    expect(await b.read.customer.count()).toBe(0);
  });

  it("done twice changes nothing, and a renamed copy of the file neither", async () => {
    const { a } = shops;
    await runImport(a, fileOf("customers", messy.text));
    const before = await everyone(a);
    const again = await runImport(a, fileOf("customers", messy.text, { fileName: "copy.csv" }));
    expect(again).toMatchObject({ added: 0, changed: 0, doubles: [], problems: [] });
    expect(await everyone(a)).toEqual(before);
  });

  it("in another order says the same", async () => {
    const { a } = shops;
    await runImport(a, fileOf("customers", messy.text));
    const [heading = "", ...lines] = messy.text.split("\r\n");
    const view = await previewImport(a, fileOf("customers", [heading, ...lines.reverse()].join("\n")));
    expect(view).toMatchObject({ added: 0 });
  });
});

describe("rows that are probably here already", () => {
  const HERE = [
    { name: "Ines Valdborg", phone: "0412 345 678", email: "" },
    { name: "Marlow Freight", phone: "", email: "desk@marlow.example" },
    { name: "Tam Reyes", phone: "0400 111 222", email: "" },
  ];
  const LIST = [
    "Name,Phone,E-mail,Street,Suburb,State,Postcode",
    "VALDBORG Ines,+61 412 345 678,ines@example.org,3 Salt Rd,Oodna,SA,5700",
    "Marlow Freight,08 5550 1234,desk@marlow.example,,,,",
    "Tam Reyes,0400 999 888,,,,,",
    "Una Quill,0433 000 000,,,,,",
  ].join("\n");

  async function stand(shop: ShopHandle) {
    for (const one of HERE)
      await shop.write((tx) =>
        tx.customer.create({
          data: { ...one, searchKey: one.name.toLowerCase(), createdAt: shop.now },
          select: { id: true },
        }),
      );
  }

  it("are each told with why, updated where that is sure and kept apart where it is not", async () => {
    const { a, b } = shops;
    await stand(a);
    const view = await previewImport(a, fileOf("customers", LIST));
    expect(view.doubles.map((one) => [one.line, one.target.name, one.why, one.choice])).toEqual([
      [2, "Ines Valdborg", "the same name and phone", "update"],
      [3, "Marlow Freight", "the same name and e-mail", "update"],
      [4, "Tam Reyes", "the same name, but another phone or e-mail", "both"],
    ]);
    expect(view).toMatchObject({ added: 2, changed: 2 });
    await runImport(a, fileOf("customers", LIST));
    expect((await everyone(a)).map((one) => [one.name, one.phone, one.email, one.address])).toEqual([
      ["Ines Valdborg", "+61 412 345 678", "ines@example.org", "3 Salt Rd\nOodna SA 5700"],
      ["Marlow Freight", "08 5550 1234", "desk@marlow.example", ""],
      ["Tam Reyes", "0400 111 222", "", ""],
      ["Tam Reyes", "0400 999 888", "", ""],
      ["Una Quill", "0433 000 000", "", ""],
    ]);
    const again = await runImport(a, fileOf("customers", LIST));
    expect(again).toMatchObject({ added: 0, changed: 0, doubles: [] });
    // The other shop knows nobody of them.
    expect((await previewImport(b, fileOf("customers", LIST))).doubles).toEqual([]);
  });

  it("are decided for all at once, or line by line", async () => {
    const { a } = shops;
    await stand(a);
    const skipped = await previewImport(a, fileOf("customers", LIST, { doubles: "skip" }));
    expect(skipped).toMatchObject({ added: 1, changed: 0, skipped: 3 });
    const kept = await previewImport(a, fileOf("customers", LIST, { doubles: "both" }));
    expect(kept).toMatchObject({ added: 4, changed: 0, skipped: 0 });
    await runImport(a, fileOf("customers", LIST, { doubles: "skip", double: { 4: "update" } }));
    expect((await everyone(a)).map((one) => [one.name, one.phone, one.version])).toEqual([
      ["Ines Valdborg", "0412 345 678", 1],
      ["Marlow Freight", "", 1],
      ["Tam Reyes", "0400 999 888", 2],
      ["Una Quill", "0433 000 000", 1],
    ]);
  });

  it("are found among bikes by frame and plate, and among parts by a code written otherwise", async () => {
    const { a } = shops;
    await runImport(a, fileOf("customers", "Navn,Tlf\nInes Valdborg,90011222\nMarlow,90011333"));
    const bikes =
      "Eier;Merke;Modell;Reg.nr;Rammenr;Slagvolum;Forgasser\nInes Valdborg;Orme;Twin 750;AB 1234;FRAME77;745;vakuum";
    await runImport(a, fileOf("bikes", bikes));
    const later =
      "Eier;Merke;Modell;Reg.nr;Rammenr\nVALDBORG, INES;Orme;Twin 750;ab1234;\nMarlow;Orme;Twin 750;XX 1;frame-77\nInes  Valdborg;Orme;TWIN 750;;";
    const view = await previewImport(a, fileOf("bikes", later));
    expect(view.doubles.map((one) => [one.line, one.why, one.choice])).toEqual([
      [2, "the same plate", "update"],
      [3, "the same frame number", "update"],
    ]);
    expect(view.added).toBe(0);
    expect(view.notes).toContainEqual({ line: 4, text: "Taken together with line 2." });
    await runImport(
      a,
      fileOf("parts", "Varenummer;Benevnelse;Gruppe;Beholdning\nHX-1200;Hoveddyse 120;Hoveddyse;4"),
    );
    expect(await a.read.part.findFirstOrThrow({ orderBy: { id: "asc" } })).toMatchObject({
      code: "HX-1200",
      kind: "jet",
      onHandMilli: 4000,
    });
    const parts = fileOf("parts", "Varenummer;Benevnelse;Hylle\nhx 1200;Hoveddyse 120;B2");
    expect((await previewImport(a, parts)).doubles).toMatchObject([
      { line: 2, why: "the same code, written otherwise", choice: "update" },
    ]);
    await runImport(a, parts);
    expect(await a.read.part.findMany({ select: { code: true, bin: true }, orderBy: { id: "asc" } })).toEqual(
      [{ code: "HX-1200", bin: "B2" }],
    );
    expect(await runImport(a, parts)).toMatchObject({ added: 0, changed: 0, doubles: [] });
  });
});

describe("models without a card", () => {
  const BIKES = [
    "Kundenavn;Merke;Modell;Årsmodell;Reg.nr;Kubikk",
    "Kari Fossvik;Tarrant;Drover 580;1998;AB 100;580",
    "Kari Fossvik;Tarrant;Drover 580;1999;AB 101;",
    "Kari Fossvik;Kestrel;Trail 250;2001;AB 102;",
  ].join("\n");

  it("are asked about once each, and the answers make the cards", async () => {
    const { a, b } = shops;
    await runImport(a, fileOf("customers", "Navn;Tlf\nKari Fossvik;90011222"));
    const view = await previewImport(a, fileOf("bikes", BIKES));
    expect(view.missing).toMatchObject([
      { make: "Tarrant", model: "Drover 580", rows: 2, displacementCc: 580 },
      { make: "Kestrel", model: "Trail 250", rows: 1 },
    ]);
    expect(view.problems).toHaveLength(2);
    const half = fileOf("bikes", BIKES, {
      cards: {
        0: {
          make: "Tarrant",
          model: "Drover 580",
          displacementCc: "580",
          cylinders: "1",
          carburettors: "1",
          carburettorType: "mechanical slide",
        },
        1: { make: "Kestrel", model: "Trail 250", displacementCc: "", carburettorType: "" },
      },
    });
    expect((await previewImport(a, half)).missing.map((one) => one.make)).toEqual(["Kestrel"]);
    const whole = fileOf("bikes", BIKES, {
      cards: {
        0: {
          make: "Tarrant",
          model: "Drover 580",
          displacementCc: "580",
          cylinders: "1",
          carburettors: "1",
          carburettorType: "mechanical slide",
        },
        1: {
          make: "Kestrel",
          model: "Trail 250",
          displacementCc: "249",
          cylinders: "1",
          carburettors: "1",
          carburettorType: "constant vacuum",
        },
      },
    });
    expect(await runImport(a, whole)).toMatchObject({ added: 3, missing: [], problems: [] });
    expect(
      await a.read.modelCard.findMany({
        select: { model: true, displacementCc: true, carburettorType: true },
        orderBy: { id: "asc" },
      }),
    ).toEqual([
      { model: "Drover 580", displacementCc: 580, carburettorType: "mechanical slide" },
      { model: "Trail 250", displacementCc: 249, carburettorType: "constant vacuum" },
    ]);
    expect(await b.read.modelCard.count()).toBe(0);
    expect(await runImport(a, fileOf("bikes", BIKES))).toMatchObject({ added: 0, changed: 0, problems: [] });
  });

  it("described with a number that cannot be are refused at the field", () => {
    expect(() =>
      fileOf("bikes", BIKES, {
        cards: { 0: { make: "T", model: "D", displacementCc: "5", carburettorType: "x" } },
      }),
    ).toThrow("20 to 3000");
  });
});
