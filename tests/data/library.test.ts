import { beforeEach, describe, expect, it } from "vitest";
import { getEntry, libraryFile, listEntries } from "@/lib/data/library/read";
import { importLibrary, retireEntry, saveEntry, takeEntries } from "@/lib/data/library/write";
import { createPackage, publishRevision } from "@/lib/data/packages/author";
import { beginDraft } from "@/lib/data/packages/draft";
import { importPackage, packageFile } from "@/lib/data/packages/file";
import { getPackage } from "@/lib/data/packages/get";
import { printOf, saveItem } from "@/lib/data/packages/items";
import { answerOffers, offersTo, packagesBehind } from "@/lib/data/packages/offers";
import { pickEntries } from "@/lib/data/packages/pickEntries";
import type { ShopHandle } from "@/lib/db/shop";
import type { LibraryEntry } from "@/lib/domain/library/entry";
import { STARTING_LIBRARY } from "@/lib/domain/library/starting/starting";
import { ImportLibrarySchema, LibraryQuery } from "@/lib/schemas/library";
import { AccessEntryForm, type EntrySaid } from "@/lib/schemas/libraryForms";
import { ImportPackageSchema } from "@/lib/schemas/packages";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
beforeEach(async () => {
  ({ a, b } = await twoShops());
});

const all = (shop: ShopHandle, query: object = {}) => listEntries(shop, LibraryQuery.parse(query));
async function entryOf(shop: ShopHandle, key: string) {
  const found = (await all(shop)).find(({ entry }) => entry.key === key);
  if (!found) throw new Error(`The library has no ${key}.`);
  return found;
}
async function change(shop: ShopHandle, key: string, more: object) {
  const { id, version, entry } = await entryOf(shop, key);
  await saveEntry(shop, { id, version, entry: { ...entry, ...more } as EntrySaid });
}
const WORK = ["clean-rack", "set-floats-twin", "bench-balance", "vacuum-balance", "set-idle"];
/** A package picked from the library and published; answers its id. */
async function rebuild(shop: ShopHandle): Promise<number> {
  await takeEntries(shop, { entries: [], all: "yes" });
  const packageId = await createPackage(shop, { code: "RACK-2", name: "Rack rebuild", summary: "" });
  await beginDraft(shop, { packageId });
  await pickEntries(shop, { packageId, entries: WORK, option: "Rack rebuilt", grade: "" });
  const draft = await shop.read.packageRevision.findFirstOrThrow({ where: { packageId } });
  await publishRevision(shop, { revisionId: draft.id, version: draft.version });
  return packageId;
}
const shown = async (shop: ShopHandle, id: number) => {
  const found = await getPackage(shop, id);
  if (!found?.shown) throw new Error("It has a revision.");
  return found.shown;
};

describe("the starting library taken over", () => {
  it("is the shop's own, whole or piece by piece, each entry once; the other shop has none", async () => {
    expect(await takeEntries(a, { entries: ["tank-off", "rocket"], key: "take-one-1" })).toBe(1);
    expect(await takeEntries(a, { entries: ["tank-off", "rocket"], key: "take-one-1" })).toBe(1);
    expect(await takeEntries(a, { entries: [], all: "yes" })).toBe(STARTING_LIBRARY.length - 1);
    expect(await takeEntries(a, { entries: [], all: "yes" })).toBe(0);
    expect((await all(a)).map(({ entry }) => entry.key).sort()).toEqual(
      STARTING_LIBRARY.map(({ key }) => key).sort(),
    );
    expect(await all(b)).toEqual([]);
    await expect(takeEntries(a, { entries: ["rocket"] })).rejects.toThrow("Nothing is ticked");
  });

  it("is narrowed by family, kind, place and words", async () => {
    await takeEntries(a, { entries: [], all: "yes" });
    const twins = await all(a, { family: "twin-rack", kind: "operation" });
    const wanted = STARTING_LIBRARY.filter(
      ({ kind, families }) =>
        kind === "operation" && (families.length === 0 || families.includes("twin-rack")),
    );
    expect(twins.map(({ entry }) => entry.key).sort()).toEqual(wanted.map(({ key }) => key).sort());
    const found = await all(a, { q: "MANIFOLDS swung", place: "swung", kind: "access" });
    expect(found.map(({ entry }) => entry.key)).toContain("swung");
    expect(await all(a, { q: "manifold 100%" })).toEqual([]);
  });

  it("is changed in a form with what each torque rests on, keeps every text, and refuses to write over another's", async () => {
    await takeEntries(a, { entries: ["tank-off"] });
    const { id, version } = await entryOf(a, "tank-off");
    const typed = {
      id: String(id),
      version: String(version),
      name: "Tank off",
      place: "tank",
      openMinutes: "11",
      closeMinutes: "9",
      torques: { "0": { where: "Tank bolt", newtonMetres: "9,5", source: "" } },
      recheckWhat: "Tank bolt",
      recheckKm: "200",
      recheckDays: "14",
    };
    const bad = AccessEntryForm.safeParse(typed);
    expect(bad.error?.issues.map(({ path }) => path.join("."))).toContain("torques.0.source");
    const form = AccessEntryForm.parse({
      ...typed,
      torques: { "0": { where: "Tank bolt", newtonMetres: "9,5", source: "own manual, 3-4" } },
    });
    await saveEntry(a, form);
    const now = await getEntry(a, id);
    expect(now?.entry).toMatchObject({
      key: "tank-off",
      openMinutes: 11,
      torques: [{ where: "Tank bolt", newtonMetres: 9.5, source: "own manual, 3-4" }],
      recheck: { what: "Tank bolt", km: 200, days: 14 },
    });
    expect(now?.editions).toHaveLength(2);
    await expect(saveEntry(a, form)).rejects.toThrow("changed this entry while you were typing");
    const over = { ...form, over: { [String(now?.version)]: "on" } };
    await saveEntry(a, over);
    await expect(a.write((tx) => tx.libraryEdition.deleteMany({ where: { entryId: id } }))).rejects.toThrow();
    await expect(
      a.write((tx) => tx.libraryEdition.updateMany({ where: { entryId: id }, data: { print: "x" } })),
    ).rejects.toThrow();
  });

  it("is carried to another shop as a file, which keeps what that shop has of its own", async () => {
    await takeEntries(a, { entries: [], all: "yes" });
    await change(a, "tank-off", { openMinutes: 13 });
    await takeEntries(b, { entries: ["tank-off"] });
    const file = ImportLibrarySchema.parse({ file: JSON.stringify(await libraryFile(a)) });
    expect(await importLibrary(b, file)).toEqual({ added: STARTING_LIBRARY.length - 1, kept: 1 });
    expect((await entryOf(b, "tank-off")).entry).toMatchObject({ openMinutes: 8 });
    const broken = ImportLibrarySchema.safeParse({
      file: JSON.stringify({
        format: "throttlewright-library",
        version: 1,
        entries: [{ ...STARTING_LIBRARY[1], openMinutes: "ten" }],
      }),
    });
    expect(broken.error?.issues.map(({ message }) => message).join()).toContain("openMinutes");
  });
});

describe("a package picked from the library", () => {
  it("has its work, what must be open for it and one option, and can be published at once", async () => {
    const packageId = await rebuild(a);
    const { state, recipe, problems } = await shown(a, packageId);
    expect([state, problems]).toEqual(["published", []]);
    expect(recipe.operations.map(({ key }) => key)).toEqual(WORK);
    expect(recipe.accesses.map(({ key }) => key)).toEqual(
      expect.arrayContaining(["seat-off", "tank-off", "airbox-back", "rack-out", "engine-running"]),
    );
    expect(recipe.options).toMatchObject([{ name: "Rack rebuilt", operations: WORK, preset: true }]);
    expect(await b.read.package.count()).toBe(0);
  });

  it("is offered a change as a draft with its difference, never silently, and keeps what is published", async () => {
    const packageId = await rebuild(a);
    const other = await rebuild(b);
    const before = (await shown(a, packageId)).recipe;
    await change(a, "rack-out", { openMinutes: 25 });
    expect((await shown(a, packageId)).recipe).toEqual(before);
    expect(await packagesBehind(a)).toMatchObject([{ packageId, entries: ["rack-out"] }]);
    expect(await packagesBehind(b)).toEqual([]);
    const [offer] = await offersTo(a, packageId);
    expect(offer?.differences).toMatchObject([{ what: "Minutes to open", was: "18", now: "25" }]);
    const offers = [[offer?.entry ?? "", offer?.print ?? ""]] as const;
    await change(a, "rack-out", { openMinutes: 26 });
    await expect(answerOffers(a, { packageId, answer: "take", offers })).rejects.toThrow(
      "changed since you looked",
    );
    expect((await shown(a, packageId)).state).toBe("published");
    const [now] = await offersTo(a, packageId);
    const number = await answerOffers(a, {
      packageId,
      answer: "take",
      offers: [[now?.entry ?? "", now?.print ?? ""]],
    });
    const draft = await shown(a, packageId);
    expect([number, draft.number, draft.state]).toEqual([2, 2, "draft"]);
    expect(draft.recipe.accesses.find(({ key }) => key === "rack-out")?.openMinutes).toBe(26);
    expect((await getPackage(a, packageId, 1))?.shown?.recipe).toEqual(before);
    expect(await packagesBehind(a)).toEqual([]);
    expect((await shown(b, other)).recipe).toEqual(before);
  });

  it("may leave a change, which is offered again only once the library changes it anew", async () => {
    const packageId = await rebuild(a);
    await change(a, "rack-out", { openMinutes: 25 });
    const [offer] = await offersTo(a, packageId);
    await answerOffers(a, { packageId, answer: "leave", offers: [[offer?.entry ?? "", offer?.print ?? ""]] });
    expect([await packagesBehind(a), await offersTo(a, packageId)]).toEqual([[], []]);
    expect((await getPackage(a, packageId))?.revisions).toHaveLength(1);
    await change(a, "rack-out", { openMinutes: 30 });
    expect(await packagesBehind(a)).toMatchObject([{ packageId }]);
    const { id, version } = await entryOf(a, "rack-out");
    await retireEntry(a, { id, version, active: "no" });
    expect([await packagesBehind(a), await offersTo(a, packageId)]).toEqual([[], []]);
  });

  it("knows a caution of the library by its words, and is offered new ones", async () => {
    await takeEntries(a, { entries: [], all: "yes" });
    const packageId = await createPackage(a, { code: "OWN", name: "Own", summary: "" });
    await beginDraft(a, { packageId });
    const { entry } = await entryOf(a, "float-pin");
    const item = {
      name: "Bowl off",
      openMinutes: 3,
      closeMinutes: 4,
      needs: [],
      excludes: [],
      closingChecks: [],
      cautions: ["Mine.", entry.name],
      tools: [],
    };
    const key = await saveItem(a, "accesses", { packageId, key: "", seen: "" }, item);
    await change(a, "float-pin", { name: "Push the pin from the thin side." });
    expect(await offersTo(a, packageId)).toMatchObject([
      { item: "Bowl off", differences: [{ now: "Push the pin from the thin side." }] },
    ]);
    const [access] = (await shown(a, packageId)).recipe.accesses;
    await saveItem(
      a,
      "accesses",
      { packageId, key, seen: printOf(access) },
      { ...item, cautions: ["Mine."] },
    );
    expect(await offersTo(a, packageId)).toEqual([]);
  });

  it("goes to another shop with the entries it picked, and is then offered that shop's changes", async () => {
    const packageId = await rebuild(a);
    const text = JSON.stringify(await packageFile(a, packageId));
    const id = await importPackage(b, ImportPackageSchema.parse({ file: text }));
    const picked = new Set((await shown(b, id)).recipe.picks?.map(({ entry }) => entry));
    expect(new Set((await all(b)).map(({ entry }) => entry.key))).toEqual(picked);
    expect(await offersTo(b, id)).toEqual([]);
    await change(b, "set-idle", { minutes: 18 } satisfies Partial<LibraryEntry>);
    expect(await packagesBehind(b)).toMatchObject([{ packageId: id, entries: ["set-idle"] }]);
  });
});
