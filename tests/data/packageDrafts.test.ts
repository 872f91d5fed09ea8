import { describe, expect, it } from "vitest";
import { moveItem, putBack, removeItem } from "@/lib/data/packages/arrange";
import { createPackage, publishRevision } from "@/lib/data/packages/author";
import { beginDraft } from "@/lib/data/packages/draft";
import { copyPackage, importPackage, packageFile, packageFileSchema } from "@/lib/data/packages/file";
import { getPackage } from "@/lib/data/packages/get";
import { keyOf, printOf, saveItem } from "@/lib/data/packages/items";
import { tryPackage } from "@/lib/data/quotes/tryPackage";
import type { ShopHandle } from "@/lib/db/shop";
import { checkRecipe } from "@/lib/domain/packages/check";
import { without } from "@/lib/domain/packages/without";
import { ImportPackageSchema } from "@/lib/schemas/packages";
import { AccessFormSchema, OperationFormSchema, OptionFormSchema } from "@/lib/schemas/recipeForms";
import { RuleFormSchema } from "@/lib/schemas/ruleForm";
import { BREATHING, readyToQuote } from "../support/quotes";
import { as, twoShops } from "../support/shops";

async function drafted(shop: ShopHandle): Promise<number> {
  const { packageId } = await readyToQuote(shop);
  await beginDraft(shop, { packageId });
  return packageId;
}
const recipeOf = async (shop: ShopHandle, id: number) => {
  const found = await getPackage(shop, id);
  if (!found?.shown) throw new Error("It has a revision.");
  return found.shown;
};
const ref = (packageId: number, item?: object) =>
  item ? { packageId, key: keyOf(item), seen: printOf(item) } : { packageId, key: "", seen: "" };

describe("a draft written in forms", () => {
  it("begins as a copy of what is published, once, and leaves that frozen", async () => {
    const { a, b } = await twoShops();
    const packageId = await drafted(a);
    expect(await beginDraft(a, { packageId })).toBe(2);
    expect((await recipeOf(a, packageId)).recipe).toEqual(BREATHING);
    expect((await getPackage(a, packageId, 1))?.shown?.state).toBe("published");
    expect(await b.read.package.findMany({})).toEqual([]);
  });

  it("is built from nothing: group, access, operation, option, rule; then passes every check and is published", async () => {
    const { a } = await twoShops();
    const packageId = await createPackage(a, { code: "NEW", name: "New", summary: "" });
    await beginDraft(a, { packageId });
    const own = { packageId: String(packageId) };
    const group = await saveItem(a, "groups", ref(packageId), { name: "Fuel side", choose: "any" });
    expect(group).toBe("fuel-side");
    const access = AccessFormSchema.parse({
      ...own,
      name: "Bowl off",
      openMinutes: "3",
      closeMinutes: "4",
      closingChecks: "O-ring seated\n\nHose on",
    });
    expect(access.item.closingChecks).toEqual(["O-ring seated", "Hose on"]);
    await saveItem(a, "accesses", access, access.item);
    const operation = OperationFormSchema.parse({
      ...own,
      name: "Fit the main jet",
      minutes: "10",
      grade: "workshop",
      accesses: ["bowl-off"],
      holdPoints: {
        "0": { kind: "reading", name: "Float height", unit: "mm", low: "12", high: "13,5", step: "0.5" },
        "1": { kind: "reading", name: "" },
      },
    });
    expect(operation.item.holdPoints).toEqual([
      { kind: "reading", name: "Float height", unit: "mm", low: 12, high: 13.5, step: 0.5 },
    ]);
    await saveItem(a, "operations", operation, operation.item);
    const option = OptionFormSchema.parse({
      ...own,
      name: "Main jet to suit",
      group: "fuel-side",
      operations: ["fit-the-main-jet"],
      preset: "on",
      parts: { "0": { kind: "mainJet", what: "Round main", quantity: "1" } },
      changes: { "0": { setting: "mainJet", change: "computed", value: "" } },
      fixedPrice: "45.00",
    });
    await saveItem(a, "options", option, option.item, option.fixedPrice);
    const rule = RuleFormSchema.parse({
      ...own,
      kind: "only when",
      option: "main-jet-to-suit",
      fact: "cylinders",
      op: "<=",
      value: "2",
      why: "The bench holds two.",
    });
    await saveItem(a, "rules", rule, rule.item);
    const shown = await recipeOf(a, packageId);
    expect(shown.problems).toEqual([]);
    expect(shown.recipe.options[0]).toMatchObject({ fixedPriceMinor: 4500, preset: true, roadUse: false });
    expect(shown.recipe.rules).toEqual([
      {
        kind: "only when",
        option: "main-jet-to-suit",
        fact: "cylinders",
        op: "<=",
        value: 2,
        why: "The bench holds two.",
      },
    ]);
    await publishRevision(a, { revisionId: shown.id, version: shown.version });
    await expect(
      saveItem(a, "groups", ref(packageId), { name: "More", choose: "any" }),
    ).rejects.toMatchObject({
      kind: "conflict",
      message: expect.stringContaining("published and frozen"),
    });
  });

  it("lets two people change different items, and tells the second of two who change the same one", async () => {
    const { a } = await twoShops();
    const packageId = await drafted(a);
    const other = as(a, { by: { ...a.by, name: "Pia Holm" } });
    const [first, second] = BREATHING.options;
    if (!first || !second) throw new Error("The package has options.");
    const mine = ref(packageId, first);
    await saveItem(other, "options", ref(packageId, second), { ...second, name: "Snorkel out" });
    await saveItem(a, "options", mine, { ...first, name: "Airbox opened" });
    await expect(saveItem(other, "options", mine, { ...first, name: "Opening" })).rejects.toMatchObject({
      kind: "conflict",
      message: expect.stringContaining("Test Owner changed this option"),
      fields: { "over.3": expect.any(String) },
    });
    await saveItem(other, "options", { ...mine, over: { "3": "on" } }, { ...first, name: "Opening" });
    const names = (await recipeOf(a, packageId)).recipe.options.map((o) => o.name);
    expect(names.slice(0, 2)).toEqual(["Opening", "Snorkel out"]);
  });

  it("takes an item out of everything that names it, and puts it back unless more was done since", async () => {
    const { a } = await twoShops();
    const packageId = await drafted(a);
    const gone = await removeItem(a, { packageId, part: "operations", key: "needle" });
    const after = (await recipeOf(a, packageId)).recipe;
    expect(JSON.stringify(after.options.find((o) => o.key === "needle")?.operations)).toBe("[]");
    await putBack(a, { packageId, version: gone.version, recipe: JSON.parse(gone.before) });
    expect((await recipeOf(a, packageId)).recipe).toEqual(BREATHING);
    const again = await removeItem(a, { packageId, part: "options", key: "main" });
    expect((await recipeOf(a, packageId)).recipe.rules.map((r) => r.option)).toEqual(["needle"]);
    await moveItem(a, { packageId, part: "groups", key: "care", way: "up" });
    expect((await recipeOf(a, packageId)).recipe.groups.map((g) => g.key)).toEqual(["air", "care", "fuel"]);
    await expect(putBack(a, { packageId, version: again.version, recipe: BREATHING })).rejects.toMatchObject({
      kind: "conflict",
    });
  });

  it("says which field of which row cannot be saved", () => {
    const parsed = OptionFormSchema.safeParse({
      packageId: "1",
      name: "X",
      group: "g",
      parts: { "0": { kind: "part", what: "BF-20", quantity: "none" } },
      changes: { "0": { setting: "mainJet", change: "set", value: "" } },
    });
    expect(parsed.error?.issues.map((i) => i.path.join("."))).toEqual([
      "parts.0.quantity",
      "changes.0.value",
    ]);
  });
});

describe("a package in a file", () => {
  it("goes out and comes in again as the same recipe, as a draft of a new package", async () => {
    const { a, b } = await twoShops();
    const { packageId } = await readyToQuote(a);
    const text = JSON.stringify(await packageFile(a, packageId));
    const input = ImportPackageSchema.parse({ file: text });
    const id = await importPackage(b, { ...input, key: "import-01" });
    expect(await importPackage(b, { ...input, key: "import-01" })).toBe(id);
    const there = await getPackage(b, id);
    expect(there).toMatchObject({ code: "OPEN", name: "Open-road breathing", shown: { state: "draft" } });
    expect(there?.shown?.recipe).toEqual(BREATHING);
    await expect(importPackage(b, input)).rejects.toMatchObject({ fields: { code: expect.any(String) } });
    await importPackage(b, { ...input, code: "OPEN-2" });
    expect(await b.read.package.findMany({})).toHaveLength(2);
  });

  it("is refused where it is something else, of a later version, or broken, each with what is wrong", () => {
    const said = (file: unknown) =>
      ImportPackageSchema.safeParse({ file: typeof file === "string" ? file : JSON.stringify(file) }).error
        ?.issues[0]?.message;
    expect(said("{")).toContain("not JSON");
    expect(said({ format: "other" })).toContain("not a package's file");
    expect(said({ format: "throttlewright-package", version: 2 })).toContain("version 2");
    const file = { format: "throttlewright-package", version: 1, code: "A", name: "B" };
    expect(said({ ...file, recipe: {} })).toContain("should begin with the format “throttlewright-recipe”");
    expect(said({ ...file, recipe: { ...BREATHING, version: 3 } })).toContain("a recipe of version 3");
  });

  it("has a JSON Schema that names its format and version", () => {
    const schema = JSON.stringify(packageFileSchema());
    expect(schema).toContain('"const":"throttlewright-package"');
    expect(schema).toContain("json-schema.org");
  });

  it("is copied under another code", async () => {
    const { a } = await twoShops();
    const { packageId } = await readyToQuote(a);
    const id = await copyPackage(a, { packageId, code: "OPEN-B", name: "Second" });
    expect((await getPackage(a, id))?.shown).toMatchObject({ state: "draft", recipe: BREATHING });
    await expect(copyPackage(a, { packageId, code: "OPEN-B", name: "Third" })).rejects.toThrow("belongs to");
  });
});

describe("trying a package on a model card", () => {
  it("chooses, plans and prices as a new quote would, and names what it cannot work with", async () => {
    const { a } = await twoShops();
    const { packageId } = await readyToQuote(a);
    const card = await a.read.modelCard.findFirstOrThrow({});
    const blank = await tryPackage(a, { id: packageId, ticks: null });
    expect([blank?.view, blank?.cards.length]).toEqual([null, 1]);
    const trial = await tryPackage(a, { id: packageId, cardId: card.id, ticks: null });
    expect(trial?.view?.choice.chosen).toEqual(["opening", "main", "breather"]);
    expect(trial?.view?.plan.minutes).toBeGreaterThan(0);
    expect(trial?.view?.price.grossMinor).toBeGreaterThan(0);
    const ticked = await tryPackage(a, { id: packageId, cardId: card.id, ticks: ["snorkel", "opening"] });
    expect(ticked?.view?.choice.clash).toBeNull();
    await beginDraft(a, { packageId });
    await removeItem(a, { packageId, part: "accesses", key: "bowl" });
    const broken = await tryPackage(a, { id: packageId, cardId: card.id, ticks: null });
    expect(broken?.view).toBeNull();
    expect(broken?.problems.map((p) => p.kind)).toContain("operation");
  });
});

describe("a recipe without one of its items", () => {
  it("names it nowhere any more, whichever item goes", () => {
    for (const part of ["options", "operations", "accesses"] as const)
      for (const { key } of BREATHING[part]) {
        const rest = { ...BREATHING, [part]: BREATHING[part].filter((one) => one.key !== key) };
        const names = checkRecipe(without(rest, part, key)).filter((p) => p.kind === "name");
        expect(names, `${part} ${key}`).toEqual([]);
      }
  });
});
