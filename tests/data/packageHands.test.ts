import { describe, expect, it } from "vitest";
import { moveItem, putBack, removeItem } from "@/lib/data/packages/arrange";
import { addPackageRevision, seenOf } from "@/lib/data/packages/author";
import { beginDraft, dropDraft } from "@/lib/data/packages/draft";
import { getPackage } from "@/lib/data/packages/get";
import { keyOf, printOf, saveItem } from "@/lib/data/packages/items";
import { recipeLacks } from "@/lib/data/packages/lacks";
import type { ShopHandle } from "@/lib/db/shop";
import { checkRecipe } from "@/lib/domain/packages/check";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { BREATHING, readyToQuote } from "../support/quotes";
import { as, twoShops } from "../support/shops";

async function drafted(shop: ShopHandle): Promise<number> {
  const { packageId } = await readyToQuote(shop);
  await beginDraft(shop, { packageId });
  return packageId;
}
const shownOf = async (shop: ShopHandle, id: number) => {
  const shown = (await getPackage(shop, id))?.shown;
  if (!shown) throw new Error("It has a revision.");
  return shown;
};
const ref = (packageId: number, item: object) => ({ packageId, key: keyOf(item), seen: printOf(item) });

describe("the text of a recipe, with two authors", () => {
  it("is not saved over what someone wrote since it was opened, unless that very state is named", async () => {
    const { a } = await twoShops();
    const packageId = await drafted(a);
    const seen = seenOf(await shownOf(a, packageId));
    expect(seen).toBe("2-1");
    const pia = as(a, { by: { ...a.by, name: "Pia Holm" } });
    const [group] = BREATHING.groups;
    if (!group) throw new Error("The package has groups.");
    await saveItem(pia, "groups", ref(packageId, group), { name: "Air side", choose: "at most one" });
    const mine: Recipe = { ...BREATHING, rules: [] };
    await expect(addPackageRevision(a, { packageId, recipe: mine, seen })).rejects.toMatchObject({
      kind: "conflict",
      message: expect.stringContaining("Pia Holm changed this draft"),
      fields: { "over.2-2": expect.any(String) },
    });
    expect((await shownOf(a, packageId)).recipe.groups[0]?.name).toBe("Air side");
    await expect(
      addPackageRevision(a, { packageId, recipe: mine, seen, over: { "2-1": "on" } }),
    ).rejects.toThrow(/changed this draft/);
    await addPackageRevision(a, { packageId, recipe: mine, seen, over: { "2-2": "on" } });
    expect((await shownOf(a, packageId)).recipe).toEqual(mine);
  });

  it("is not saved as a new draft over one that was begun or published meanwhile", async () => {
    const { a } = await twoShops();
    const { packageId } = await readyToQuote(a);
    const seen = seenOf(await shownOf(a, packageId));
    await beginDraft(a, { packageId });
    await expect(addPackageRevision(a, { packageId, recipe: BREATHING, seen })).rejects.toMatchObject({
      kind: "conflict",
    });
  });
});

describe("a draft that is thrown away", () => {
  it("leaves what is published, only as it was looked at, and can be brought back whole", async () => {
    const { a, b } = await twoShops();
    const packageId = await drafted(a);
    const [option] = BREATHING.options;
    if (!option) throw new Error("The package has options.");
    await saveItem(a, "options", ref(packageId, option), { ...option, name: "Opening" });
    await expect(dropDraft(a, { packageId, version: 1 })).rejects.toMatchObject({ kind: "conflict" });
    await expect(dropDraft(b, { packageId, version: 2 })).rejects.toMatchObject({ kind: "missing" });
    const dropped = await dropDraft(a, { packageId, version: 2 });
    expect(await shownOf(a, packageId)).toMatchObject({ number: 1, state: "published", recipe: BREATHING });
    await expect(dropDraft(a, { packageId, version: 2 })).rejects.toThrow(/published and frozen/);
    await addPackageRevision(a, { packageId, recipe: JSON.parse(dropped.before) });
    expect((await shownOf(a, packageId)).recipe.options[0]?.name).toBe("Opening");
  });
});

describe("an item that others name", () => {
  it("is taken out together with what names it, which is told; a group only when empty", async () => {
    const { a } = await twoShops();
    const packageId = await drafted(a);
    await expect(removeItem(a, { packageId, part: "groups", key: "care" })).rejects.toMatchObject({
      message: "The group still holds option “Breather filter renewed”, option “Spark and valve check”.",
    });
    const gone = await removeItem(a, { packageId, part: "accesses", key: "tilt" });
    expect(gone.namedBy).toEqual(["operation “Reseat the needle”", "access “Bowl off”"]);
    expect(JSON.stringify((await shownOf(a, packageId)).recipe)).not.toContain('"tilt"');
    await putBack(a, { packageId, version: gone.version, recipe: JSON.parse(gone.before) });
    expect((await shownOf(a, packageId)).recipe).toEqual(BREATHING);
  });

  it("has its key changed wherever it is named, but not to one that another has", async () => {
    const { a } = await twoShops();
    const packageId = await drafted(a);
    const bowl = BREATHING.accesses.find((one) => one.key === "bowl");
    if (!bowl) throw new Error("The bowl comes off.");
    const { key: _, ...item } = bowl;
    await expect(
      saveItem(a, "accesses", { ...ref(packageId, bowl), as: "tilt" }, item),
    ).rejects.toMatchObject({
      fields: { as: "“Carburettor turned left” has this key: enter another." },
    });
    expect(await saveItem(a, "accesses", { ...ref(packageId, bowl), as: "float-bowl" }, item)).toBe(
      "float-bowl",
    );
    const { recipe, problems } = await shownOf(a, packageId);
    expect(problems).toEqual([]);
    expect(checkRecipe(recipe)).toEqual([]);
    expect(recipe.operations.find((o) => o.key === "fit-main")?.accesses).toEqual(["float-bowl"]);
  });
});

describe("the order of options", () => {
  it("changes within a group, whatever stands between them in the list", async () => {
    const { a } = await twoShops();
    const packageId = await drafted(a);
    const [first, ...rest] = BREATHING.options;
    // “needle” of the fuel group goes before “opening”: “main”, its neighbour in the group, is two places on.
    await addPackageRevision(a, {
      packageId,
      recipe: {
        ...BREATHING,
        options: [...rest.slice(2, 3), first, ...rest.filter((o) => o.key !== "needle")] as Recipe["options"],
      },
    });
    const order = async (group: string) =>
      (await shownOf(a, packageId)).recipe.options.filter((o) => o.group === group).map((o) => o.key);
    expect(await order("fuel")).toEqual(["needle", "main"]);
    await moveItem(a, { packageId, part: "options", key: "needle", way: "down" });
    expect([await order("fuel"), await order("air"), await order("care")]).toEqual([
      ["main", "needle"],
      ["opening", "snorkel"],
      ["breather", "check"],
    ]);
    const before = await shownOf(a, packageId);
    await moveItem(a, { packageId, part: "options", key: "needle", way: "down" });
    expect((await shownOf(a, packageId)).version).toBe(before.version);
  });
});

describe("what a shop lacks for a recipe", () => {
  it("is looked up in its own stock and grades", async () => {
    const { a, b } = await twoShops();
    const packageId = await drafted(a);
    const { recipe } = await shownOf(a, packageId);
    expect(await recipeLacks(a, recipe)).toEqual([]);
    expect((await recipeLacks(b, recipe)).map((lack) => lack.name)).toEqual(["BF-20", "Round main"]);
  });
});
