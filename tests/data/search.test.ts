import { beforeAll, expect, test } from "vitest";
import { createBike } from "@/lib/data/bikes";
import { createCustomer } from "@/lib/data/customers";
import { runImport } from "@/lib/data/imports";
import { searchAll } from "@/lib/data/search";
import { searchKey } from "@/lib/domain/searchKey";
import { NewBikeSchema } from "@/lib/schemas/bikes";
import { CustomerSchema } from "@/lib/schemas/customers";
import { ImportSchema } from "@/lib/schemas/imports";
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
    model: "TX 640",
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
          number,
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

test("a name finds the customer, the bike and the quotes, whatever its marks", async () => {
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
    label: "Tarrant TX 640",
    sub: "S 12-AB · Bjørg Åsen",
  });
});
test("a plate or a phone number is found without its spaces", async () => {
  expect((await groups("s12ab")).bikes?.hits).toHaveLength(1);
  expect((await groups("0400555123")).customers?.hits).toHaveLength(1);
});
test("a number finds that document before others that hold it", async () => {
  const { quotes } = await groups("Q1042");
  expect(quotes?.hits.map((hit) => hit.label)).toEqual(["Quote 1042"]);
  expect((await groups("1042")).quotes?.hits.map((hit) => hit.label)).toEqual(["Quote 1042", "Quote 11042"]);
});
test("more hits than eight are cut, and it says so", async () => {
  const { parts } = await groups("main jet");
  expect(parts).toMatchObject({ more: true });
  expect(parts?.hits).toHaveLength(8);
  expect((await groups("hx 1025")).parts?.hits.map((hit) => hit.label)).toEqual(["HX-1025"]);
});
test("nothing typed finds nothing, and odd signs break nothing", async () => {
  for (const text of ["", "   ", "'; drop table Customer; --", "99999999999999999999", "\\", "()[]*"])
    expect(await searchAll(shops.a, text)).toEqual([]);
});
test("another shop's records are never found", async () => {
  for (const text of ["bjorg", "1042", "hx", "s12ab"]) expect(await searchAll(shops.b, text)).toEqual([]);
});
