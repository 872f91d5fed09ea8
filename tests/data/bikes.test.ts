import { beforeAll, describe, expect, it } from "vitest";
import { changeBike, createBike, getBike, listBikes } from "@/lib/data/bikes/bikes";
import { changeModelCard, getModelCard } from "@/lib/data/bikes/modelCards";
import { changeCustomer, createCustomer } from "@/lib/data/customers/customers";
import { Refusal } from "@/lib/domain/refusal";
import { BikeQuery, BikeSchema, NewBikeSchema } from "@/lib/schemas/bikes";
import { CustomerSchema } from "@/lib/schemas/customers";
import { ModelCardSchema } from "@/lib/schemas/modelCards";
import { type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
let owner: number;
beforeAll(async () => {
  shops = await twoShops();
  owner = await createCustomer(shops.a, CustomerSchema.parse({ name: "Ines Valdborg" }));
});

const twin = (customerId = owner) =>
  NewBikeSchema.parse({
    card: "new",
    customerId: String(customerId),
    make: "Orme",
    model: "Twin 750",
    displacementCc: "745",
    cylinders: "2",
    carburettors: "2",
    carburettorType: "constant vacuum",
    plate: "S 12-AB",
    odometerKm: "24310",
  });
const edit = (id: number, modelCardId: number, fields: Record<string, unknown>) =>
  BikeSchema.parse({
    id: String(id),
    customerId: String(owner),
    modelCardId: String(modelCardId),
    version: "1",
    ...fields,
  });

describe("a bike", () => {
  it("of a new model makes the smallest card and its carburettors, once per key", async () => {
    const { a, b } = shops;
    const id = await createBike(a, twin(), "bike-key-one");
    expect(await createBike(a, twin(), "bike-key-one")).toBe(id);
    const bike = await getBike(a, id);
    expect(bike?.carburettors.map((each) => each.label)).toEqual(["Left", "Right"]);
    expect(bike?.latest).toEqual({ asFound: null, target: null, asLeft: null });
    expect((await getModelCard(a, bike?.modelCardId ?? 0))?.displacementCc).toBe(745);
    expect(await getBike(b, id)).toBeNull();
    expect((await listBikes(b, BikeQuery.parse({}))).rows).toEqual([]);
  });

  it("is found by its plate without spaces, its model and its owner's name", async () => {
    for (const q of ["s12ab", "S 12-AB", "twin 750", "valdborg orme"])
      expect((await listBikes(shops.a, BikeQuery.parse({ q }))).rows.map((row) => row.plate)).toEqual([
        "S 12-AB",
      ]);
    expect((await listBikes(shops.a, BikeQuery.parse({ q: "valdborg tarrant" }))).rows).toEqual([]);
  });

  it("of a model that has a card already is refused a second one", async () => {
    await expect(createBike(shops.a, twin())).rejects.toThrow("There is a card for Orme Twin 750 already.");
  });

  it("for no such customer is refused, and leaves no card behind", async () => {
    const { b } = shops;
    await expect(createBike(b, twin(owner))).rejects.toThrow("no such customer");
    expect(await b.read.modelCard.count()).toBe(0);
  });

  it("keeps its number of carburettors when its card changes, and renames them", async () => {
    const { a } = shops;
    const [bike] = (await listBikes(a, BikeQuery.parse({}))).rows;
    const view = await getBike(a, bike?.id ?? 0);
    if (!view) throw new Error("no bike");
    const single = NewBikeSchema.parse({
      ...{
        card: "new",
        customerId: String(owner),
        make: "Kestrel",
        model: "Trail 400",
        displacementCc: "398",
        cylinders: "1",
        carburettors: "1",
        carburettorType: "mechanical slide",
      },
    });
    const other = await getBike(a, await createBike(a, single));
    await expect(changeBike(a, edit(view.id, other?.modelCardId ?? 0, {}))).rejects.toThrow(
      "has 1, and this bike 2 carburettors",
    );
    await changeBike(
      a,
      edit(view.id, view.modelCardId, {
        plate: "NEW 1",
        carburettors: { "2": { label: "Right side", marking: "40-B" } },
      }),
    );
    expect(await getBike(a, view.id)).toMatchObject({
      plate: "NEW 1",
      version: 2,
      carburettors: [{ label: "Left" }, { label: "Right side", marking: "40-B" }],
    });
    const late = await changeBike(a, edit(view.id, view.modelCardId, { plate: "MINE" })).catch(
      (cause: unknown) => cause,
    );
    expect(late).toBeInstanceOf(Refusal);
    expect((late as Refusal).fields.plate).toContain('from "S 12-AB" to "NEW 1"');
    expect((late as Refusal).fields["carburettors.2.marking"]).toContain("40-B");
  });

  it("is found by its owner's and its model's new name once they are renamed", async () => {
    const { a } = shops;
    const find = async (q: string) =>
      (await listBikes(a, BikeQuery.parse({ q }))).rows.map((row) => row.plate);
    await changeCustomer(a, owner, CustomerSchema.parse({ name: "Ines Quarrie", version: "1" }));
    expect(await find("quarrie twin")).toEqual(["NEW 1"]);
    expect(await find("valdborg")).toEqual([]);
    const [bike] = (await listBikes(a, BikeQuery.parse({ q: "twin" }))).rows;
    const view = await getBike(a, bike?.id ?? 0);
    const card = {
      make: "Orme",
      model: "Pair 750",
      displacementCc: "745",
      cylinders: "2",
      carburettors: "2",
    };
    const renamed = ModelCardSchema.parse({ ...card, carburettorType: "constant vacuum", version: "1" });
    await changeModelCard(a, view?.modelCardId ?? 0, renamed);
    expect(await find("quarrie pair")).toEqual(["NEW 1"]);
    expect((await getBike(a, view?.id ?? 0))?.version).toBe(view?.version);
  });
});
