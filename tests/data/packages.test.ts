import { describe, expect, it } from "vitest";
import {
  addPackageRevision,
  createPackage,
  publishRevision,
  retirePackage,
} from "@/lib/data/packages/author";
import { getPackage } from "@/lib/data/packages/get";
import { listPackages } from "@/lib/data/packages/list";
import { AddRevisionSchema } from "@/lib/schemas/packages";
import { BREATHING } from "../support/quotes";
import { twoShops } from "../support/shops";

const NEW = { code: "OPEN", name: "Open-road breathing", summary: "Freer in, jetted to suit." };

describe("a package", () => {
  it("is written as drafts, published once, and then frozen: a later recipe makes the next revision", async () => {
    const { a, b } = await twoShops();
    const packageId = await createPackage(a, { ...NEW, key: "make-once" });
    expect(await createPackage(a, { ...NEW, key: "make-once" })).toBe(packageId);
    const first = await addPackageRevision(a, { packageId, recipe: BREATHING });
    const over = await addPackageRevision(a, { packageId, recipe: { ...BREATHING, rules: [] } });
    expect(over).toEqual(first);
    await expect(publishRevision(a, { revisionId: first.id, version: 1 })).rejects.toMatchObject({
      kind: "conflict",
    });
    await publishRevision(a, { revisionId: first.id, version: 2 });
    const second = await addPackageRevision(a, { packageId, recipe: BREATHING });
    expect(second.number).toBe(2);
    const kept = await a.read.packageRevision.findUniqueOrThrow({ where: { id: first.id } });
    expect(kept.recipe).toMatchObject({ rules: [] });
    expect(await listPackages(a)).toMatchObject([{ code: "OPEN", published: 1, draft: 2 }]);
    expect(await listPackages(b)).toEqual([]);
    expect(await getPackage(b, packageId)).toBeNull();
  });

  it("is not published with a rule that no choice can meet, and the refusal names the clash", async () => {
    const { a } = await twoShops();
    const packageId = await createPackage(a, NEW);
    const rules = [
      ...BREATHING.rules,
      { kind: "excludes" as const, option: "opening", other: "main", why: "Not on this one." },
    ];
    const { id } = await addPackageRevision(a, { packageId, recipe: { ...BREATHING, rules } });
    const shown = (await getPackage(a, packageId))?.shown;
    expect(shown?.problems.map((p) => p.kind)).toContain("clash");
    await expect(publishRevision(a, { revisionId: id, version: 1 })).rejects.toThrow(
      /“Airbox opening, 48 mm” can never be chosen/,
    );
    expect(await a.read.packageRevision.findUnique({ where: { id } })).toMatchObject({
      state: "draft",
      publishedAt: null,
    });
  });

  it("shows the plan minutes of its presets: seat, tilt and bowl are opened once", async () => {
    const { a } = await twoShops();
    const packageId = await createPackage(a, NEW);
    await addPackageRevision(a, { packageId, recipe: BREATHING });
    const shown = (await getPackage(a, packageId))?.shown;
    // 28 + 10 + 6 of work; seat 21, tilt 11, bowl 7 once each. Alone: (28+21) + (10+39) + (6+21) = 125.
    expect(shown?.presetMinutes).toBe(83);
  });

  it("keeps a code for itself, and a retired package stands aside", async () => {
    const { a } = await twoShops();
    const packageId = await createPackage(a, NEW);
    await expect(createPackage(a, NEW)).rejects.toThrow(/belongs to “Open-road breathing”/);
    await retirePackage(a, { packageId, version: 1, active: "no" });
    await expect(retirePackage(a, { packageId, version: 1, active: "yes" })).rejects.toMatchObject({
      kind: "conflict",
    });
    expect((await listPackages(a))[0]?.active).toBe(false);
  });

  it("says where pasted text is wrong", () => {
    const issues = (recipe: string) =>
      AddRevisionSchema.safeParse({ packageId: "1", recipe }).error?.issues ?? [];
    const said = (recipe: string) => issues(recipe)[0]?.message;
    expect(said("{ groups: ")).toMatch(/^This is not JSON from line 1, column 3 on/);
    const short = issues(JSON.stringify({ ...BREATHING, groups: [{ key: "air", choose: "two" }] }));
    expect(short.map((issue) => [issue.path.slice(1).join("."), issue.message])).toEqual([
      ["", "2 things in it cannot be read. Nothing was saved."],
      ["groups.0.name", "groups, entry 1 “air”, name: it is missing. Add it."],
      [
        "groups.0.choose",
        "groups, entry 1 “air”, choose: it is “two”. It can be “exactly one” or “at most one” or “any”.",
      ],
    ]);
    expect(said(JSON.stringify(BREATHING))).toBeUndefined();
  });
});
