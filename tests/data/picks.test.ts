import { beforeAll, describe, expect, it } from "vitest";
import { rekeyBikesIn } from "@/lib/data/bikes/bikeKeys";
import { pickBikes, pickedBike, pickModelCards } from "@/lib/data/bikes/pick";
import { createCustomer } from "@/lib/data/customers/customers";
import { pickCustomers, pickedCustomer } from "@/lib/data/customers/pick";
import { createPart } from "@/lib/data/parts/save";
import { pickBuyers } from "@/lib/data/sales/buyers";
import { pickParts } from "@/lib/data/stock/pick";
import type { ShopHandle } from "@/lib/db/shop";
import { CustomerSchema } from "@/lib/schemas/customers";
import { NewPartSchema } from "@/lib/schemas/parts";
import { PickQuery } from "@/lib/schemas/picks";
import { makeBike, readyToQuote } from "../support/quotes";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

const person = (fields: Record<string, string>) =>
  createCustomer(a, CustomerSchema.parse({ email: "", phone: "", ...fields }));
const labels = (picks: { readonly rows: readonly { readonly label: string }[] }) =>
  picks.rows.map((row) => row.label);

beforeAll(async () => {
  ({ a, b } = await twoShops());
  await readyToQuote(a, 2, "Oda Fenn");
  for (const name of ["Teo Marrick", "Ines Valdborg"]) await makeBike(a, name);
  const { id: modelCardId } = await a.read.modelCard.findFirstOrThrow();
  await a.write((tx) => rekeyBikesIn(tx, { modelCardId }));
  for (let at = 1; at <= 12; at++) await person({ name: `Rook ${String(at).padStart(2, "0")}` });
  await person({ name: "Marta Ordway", phone: "555 0123", discountPercent: "7,5", discountClass: "Club" });
  for (const code of ["CHAIN-A", "CHAIN-B"])
    await createPart(
      a,
      NewPartSchema.parse({ code, name: "Drive chain, riveted", kind: "other", unit: "each", bin: "C" }),
    );
  await a.write((tx) => tx.part.update({ where: { code: "CHAIN-B" }, data: { active: false } }));
});

describe("what a field offers while it is typed into", () => {
  it("holds every word typed, whatever its accents, by name, and says that there are more", async () => {
    expect(labels(await pickCustomers(a, "rook"))).toEqual(
      Array.from({ length: 10 }, (_, at) => `Rook ${String(at + 1).padStart(2, "0")}`),
    );
    expect((await pickCustomers(a, "rook")).more).toBe(true);
    expect(await pickCustomers(a, "ORDWAY mártá")).toEqual({
      rows: [{ value: expect.stringMatching(/^\d+$/), label: "Marta Ordway", sub: "555 0123" }],
      more: false,
    });
    expect(labels(await pickBikes(a, "drover fenn"))).toEqual(["Tarrant Drover 580"]);
    expect((await pickBikes(a, "drover fenn")).rows[0]?.sub).toContain("Oda Fenn");
    expect((await pickModelCards(a, "tarr 580")).rows).toEqual([
      { value: expect.stringMatching(/^\d+$/), label: "Tarrant Drover 580", sub: "from 2000" },
    ]);
    expect(labels(await pickCustomers(a, "nobody of this name"))).toEqual([]);
  });

  it("is the newest where nothing is typed, blanks and signs alone too", async () => {
    expect(labels(await pickCustomers(a, "", 2))).toEqual(["Marta Ordway", "Rook 12"]);
    expect(labels(await pickCustomers(a, "   ", 2))).toEqual(["Marta Ordway", "Rook 12"]);
    expect((await pickBikes(a, "", 1)).rows[0]?.sub).toContain("Ines Valdborg");
  });

  it("offers parts in use by their code, with the drawers of jets first where a recipe asks for them", async () => {
    expect((await pickParts(a, "drive chain")).rows).toEqual([
      { value: "CHAIN-A", label: "CHAIN-A", sub: "Drive chain, riveted" },
    ]);
    const jets = await pickParts(a, "round", { families: true });
    expect(jets.rows[0]).toMatchObject({ sub: "drawer of jets, size computed" });
    expect((await pickParts(a, "round")).rows.every((row) => !row.sub.startsWith("drawer"))).toBe(true);
  });

  it("tells the counter the discount that is a customer's", async () => {
    expect((await pickBuyers(a, "ordway")).rows).toEqual([
      {
        value: expect.stringMatching(/^\d+$/),
        label: "Marta Ordway",
        sub: "555 0123",
        discountBp: 750,
        discountClass: "Club",
      },
    ]);
  });

  it("names one that was asked for, and none that is not there", async () => {
    const [first] = (await pickBikes(a, "")).rows;
    expect(await pickedBike(a, Number(first?.value))).toEqual(first);
    expect(await pickedBike(a, 9_999)).toBeNull();
    expect(await pickedCustomer(a, null)).toBeNull();
  });

  it("is one shop's own: the other's offers nothing of it", async () => {
    for (const picks of [
      await pickCustomers(b, ""),
      await pickCustomers(b, "rook"),
      await pickBuyers(b, "ordway"),
      await pickBikes(b, "drover"),
      await pickParts(b, "chain"),
      await pickModelCards(b, "drover"),
    ])
      expect(picks).toEqual({ rows: [], more: false });
  });

  it("stays under 8 KB whatever the records say, and within 120 letters of what was typed", async () => {
    // Each sign takes four bytes as UTF-8.
    const long = (letters: number) => "𝕽".repeat(letters / 2);
    for (let at = 0; at < 11; at++)
      await person({
        name: `longest ${long(110)}`,
        phone: long(60),
        discountPercent: "5",
        discountClass: long(60),
      });
    const answer = await pickBuyers(a, "longest");
    expect(answer.rows).toHaveLength(10);
    expect(Buffer.byteLength(JSON.stringify(answer))).toBeLessThan(8_192);
    expect(PickQuery.parse({ q: "x".repeat(5_000) }).q).toHaveLength(120);
    expect(PickQuery.parse({ families: "maybe" })).toEqual({ q: "", families: false });
  });
});
