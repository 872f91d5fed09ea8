import { describe, expect, it } from "vitest";
import { addPackageRevision, createPackage, publishRevision } from "@/lib/data/packages/author";
import { checkRevisions } from "@/lib/data/packages/checked";
import { EMPTY_RECIPE } from "@/lib/data/packages/draft";
import { copyPackage } from "@/lib/data/packages/file";
import { getPackage } from "@/lib/data/packages/get";
import { tryPackage } from "@/lib/data/quotes/tryPackage";
import type { ShopHandle } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { BREATHING } from "../support/quotes";
import { twoShops } from "../support/shops";

const NEW = { code: "OPEN", name: "Open-road breathing", summary: "" };
const CLASHING: Recipe = {
  ...BREATHING,
  rules: [
    ...BREATHING.rules,
    { kind: "excludes", option: "opening", other: "main", why: "Not on this one." },
  ],
};
const shownOf = async (shop: ShopHandle, id: number) => {
  const shown = (await getPackage(shop, id))?.shown;
  if (!shown) throw new Error("There is no revision to show.");
  return shown;
};
/** As a version without kept checks left it. */
const asBefore = (shop: ShopHandle, id: number) =>
  shop.write((tx) =>
    tx.packageRevision.update({ where: { id }, data: { checkedBy: 0 }, select: { id: true } }),
  );

describe("what the checks say of a revision", () => {
  it("is kept as it is written and read from there when it is looked at, its rules being the recipe's own", async () => {
    const { a, b } = await twoShops();
    const packageId = await createPackage(a, NEW);
    const { id } = await addPackageRevision(a, { packageId, recipe: CLASHING });
    const { problems, recipe, isChecked } = await shownOf(a, packageId);
    expect(isChecked).toBe(true);
    const [clash] = problems.filter((p) => p.kind === "clash");
    expect(clash?.rules?.length).toBeGreaterThan(0);
    for (const rule of clash?.rules ?? []) expect(recipe.rules.some((one) => one === rule)).toBe(true);
    // Another answer put in its place is what is shown: nothing is worked out on the way.
    const said = { problems: [], presetMinutes: 11 };
    await a.write((tx) =>
      tx.packageRevision.update({ where: { id }, data: { checked: said }, select: { id: true } }),
    );
    expect(await shownOf(a, packageId)).toMatchObject(said);
    expect(await b.read.packageRevision.count()).toBe(0);
    // Publishing believes nothing that was kept.
    await expect(publishRevision(a, { revisionId: id, version: 1 })).rejects.toThrow(/can never be chosen/);
  });

  it("goes along with a copy", async () => {
    const { a } = await twoShops();
    const packageId = await createPackage(a, NEW);
    await addPackageRevision(a, { packageId, recipe: CLASHING });
    const copy = await copyPackage(a, { packageId, code: "COPY", name: "Copy" });
    expect((await shownOf(a, copy)).problems).toEqual((await shownOf(a, packageId)).problems);
  });

  it("of an earlier version's revision is said to be missing until a round has checked it, draft or published", async () => {
    const { a, b } = await twoShops();
    const packageId = await createPackage(a, NEW);
    const first = await addPackageRevision(a, { packageId, recipe: BREATHING });
    await publishRevision(a, { revisionId: first.id, version: 1 });
    const second = await addPackageRevision(a, { packageId, recipe: CLASHING });
    await asBefore(a, first.id);
    await asBefore(a, second.id);
    const before = await shownOf(a, packageId);
    expect(before).toMatchObject({ isChecked: false, presetMinutes: null });
    expect(before.problems.map((p) => p.kind)).toEqual(["undecided"]);
    expect((await tryPackage(a, { id: packageId, ticks: null }))?.view).toBeNull();

    expect(await checkRevisions(b)).toBe(0);
    expect(await checkRevisions(a)).toBe(2);
    expect(await checkRevisions(a)).toBe(0);
    const after = await shownOf(a, packageId);
    expect(after.problems.map((p) => p.kind)).toContain("clash");
    expect(after.version).toBe(before.version);
    expect((await getPackage(a, packageId, 1))?.shown).toMatchObject({ problems: [], presetMinutes: 83 });
  });

  it("leaves a published revision frozen all the same", async () => {
    const { a } = await twoShops();
    const packageId = await createPackage(a, NEW);
    const { id } = await addPackageRevision(a, { packageId, recipe: BREATHING });
    await publishRevision(a, { revisionId: id, version: 1 });
    await expect(
      a.write((tx) =>
        tx.packageRevision.update({
          where: { id },
          data: { recipe: { ...EMPTY_RECIPE, groups: [] } as object },
          select: { id: true },
        }),
      ),
    ).rejects.toThrow(/never changes/);
    await expect(
      a.write((tx) =>
        tx.$executeRawUnsafe(`UPDATE "PackageRevision" SET "state" = 'lost' WHERE "id" = ${id}`),
      ),
    ).rejects.toThrow();
  });

  it("is not worked out for a package that has grown beyond what a file of it can hold", async () => {
    const { a } = await twoShops();
    const packageId = await createPackage(a, NEW);
    const [first] = BREATHING.operations;
    if (!first) throw new Error("The recipe has operations.");
    const large = {
      ...BREATHING,
      operations: Array.from({ length: 110 }, (_, n) => ({
        ...first,
        key: `o${n}`,
        cautions: ["x".repeat(1900), "y".repeat(1900)],
      })),
    };
    await expect(addPackageRevision(a, { packageId, recipe: large })).rejects.toThrow(
      /at most 400000 can be kept/,
    );
    expect((await getPackage(a, packageId))?.shown).toBeNull();
  });
});
