import { beforeAll, describe, expect, it } from "vitest";
import { changeModelCard, createModelCard, getModelCard, listModelCards } from "@/lib/data/bikes/modelCards";
import type { Refusal } from "@/lib/domain/refusal";
import { ModelCardQuery, ModelCardSchema } from "@/lib/schemas/modelCards";
import { type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
beforeAll(async () => {
  shops = await twoShops();
});

const raw = (fields: Record<string, unknown> = {}) => ({
  make: "Tarrant",
  model: "Drover 580",
  displacementCc: "639",
  cylinders: "1",
  carburettors: "1",
  carburettorType: "constant vacuum",
  ...fields,
});
const card = (fields: Record<string, unknown> = {}) => ModelCardSchema.parse(raw(fields));
const fact = (value: string, how = "measured", note = "") => ({ value, how, note });
const told = (fields: Record<string, unknown>) =>
  ModelCardSchema.safeParse(raw(fields)).error?.issues.map((issue) => issue.path.join(".")) ?? [];

describe("a model card's form", () => {
  it("takes facts with how they are known, and leaves blank ones out", () => {
    const { facts } = card({
      facts: { boreMm: fact("40,5"), ventedTo: fact("airbox", "read"), strokeMm: fact("", "") },
    });
    expect(facts).toEqual([
      { key: "ventedTo", value: null, text: "airbox", how: "read", note: "" },
      { key: "boreMm", value: 40.5, text: null, how: "measured", note: "" },
    ]);
  });
  it("marks a fact outside its limits, unsaid how, an unknown word and an unknown fact", () => {
    expect(
      told({
        facts: {
          boreMm: fact("400"),
          strokeMm: fact("80", ""),
          ventedTo: fact("sea"),
          colour: fact("1"),
          needleClips: fact("4.5"),
        },
      }).sort(),
    ).toEqual([
      "facts.boreMm.value",
      "facts.colour.value",
      "facts.needleClips.value",
      "facts.strokeMm.how",
      "facts.ventedTo.value",
    ]);
    expect(told({ facts: { boreMm: fact("40", "computed") } })).toEqual(["facts.boreMm.how"]);
    expect(told({ yearFrom: "2010", yearTo: "2004" })).toEqual(["yearTo"]);
  });
});

describe("a model card", () => {
  it("keeps its facts, in its own shop", async () => {
    const { a, b } = shops;
    const drawers = { mainFamily: "Round main", pilotFamily: " Long pilot " };
    const typed = card({ facts: { boreMm: fact("40") }, serviceKm: "6000", ...drawers });
    const id = await createModelCard(a, typed);
    expect(await getModelCard(a, id)).toMatchObject({
      serviceKm: 6000,
      mainFamily: "Round main",
      pilotFamily: "Long pilot",
      facts: [{ key: "boreMm", value: 40, how: "measured" }],
    });
    expect(await getModelCard(b, id)).toBeNull();
    expect((await listModelCards(a, ModelCardQuery.parse({ q: "drover" }))).rows).toHaveLength(1);
  });
  it("of the same model and first year is refused, of another year is not", async () => {
    await expect(createModelCard(shops.a, card({ make: "tarrant " }))).rejects.toThrow("already");
    await createModelCard(shops.a, card({ yearFrom: "2012" }));
    await createModelCard(shops.b, card());
  });
  it("changed meanwhile names the fact that changed, and replaces facts whole when it goes through", async () => {
    const { a } = shops;
    const id = await createModelCard(
      a,
      card({ model: "Drover 500", facts: { boreMm: fact("36"), strokeMm: fact("80", "read") } }),
    );
    await changeModelCard(a, id, card({ model: "Drover 500", version: "1", facts: { boreMm: fact("37") } }));
    expect((await getModelCard(a, id))?.facts.map((each) => [each.key, each.value])).toEqual([
      ["boreMm", 37],
    ]);
    const late = await changeModelCard(a, id, card({ model: "Drover 500", version: "1" })).catch(
      (cause: unknown) => cause,
    );
    expect((late as Refusal).fields["facts.boreMm.value"]).toContain('from "36" to "37"');
    expect((late as Refusal).fields["facts.strokeMm.value"]).toContain("to blank");
    expect((await getModelCard(a, id))?.facts).toHaveLength(1);
  });
});
