import { describe, expect, it } from "vitest";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { changeBike } from "@/lib/data/bikes/bikes";
import { wearOnCard } from "@/lib/data/bikes/wear";
import { addPackageRevision, publishRevision } from "@/lib/data/packages/author";
import { beginDraft } from "@/lib/data/packages/draft";
import { packageFile } from "@/lib/data/packages/file";
import { getPackage } from "@/lib/data/packages/get";
import { saveItem } from "@/lib/data/packages/items";
import { saveSeverity, severitiesToChoose } from "@/lib/data/shop/severities";
import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { BikeSchema } from "@/lib/schemas/bikes";
import { ImportPackageSchema } from "@/lib/schemas/packages";
import { OperationFormSchema } from "@/lib/schemas/recipeForms";
import { SeveritySchema } from "@/lib/schemas/severities";
import { BREATHING, readyToQuote, sentQuote, yes } from "../support/quotes";
import { twoShops } from "../support/shops";

/** The breather's operation looks at the guides too, and its name does not say so. */
const LOOKING: Recipe = {
  ...BREATHING,
  operations: BREATHING.operations.map((o) =>
    o.key === "breather" ? { ...o, inspects: ["slideGuides"] } : o,
  ),
};

/** The recipe as it was written before operations had a mark: the name alone says what is inspected. */
function ofVersion1(name: string): Prisma.InputJsonObject {
  const { operations, ...rest } = BREATHING;
  const old = operations.map(({ inspects: _, ...o }) => (o.key === "breather" ? { ...o, name } : o));
  return { ...rest, version: 1, operations: old } as unknown as Prisma.InputJsonObject;
}

async function limitOf(shop: ShopHandle, bikeId: number): Promise<number> {
  const { modelCardId } = await shop.read.bike.findUniqueOrThrow({ where: { id: bikeId } });
  await shop.write((tx) =>
    tx.modelFact.create({
      data: { modelCardId, key: "guideCheckKm", value: 20_000, how: "read", note: "" },
    }),
  );
  return modelCardId;
}

const bikeAt = (shop: ShopHandle, id: number, odometerKm: number) =>
  shop.write((tx) => tx.bike.update({ where: { id }, data: { odometerKm } }));

/** Ends the breather's step of an accepted job that came in at so many kilometres. */
const looked = (shop: ShopHandle, jobId: number, odometerKm: number) =>
  shop.write(async (tx) => {
    await tx.job.update({ where: { id: jobId }, data: { odometerKm } });
    const { count } = await tx.step.updateMany({
      where: { jobId, key: "breather" },
      data: { state: "done" },
    });
    expect(count).toBe(1);
  });

describe("wear of a card's bikes", () => {
  it("is held against its limits; without limits nothing is said, nor in another shop", async () => {
    const { a, b } = await twoShops();
    const { bikeId } = await readyToQuote(a);
    const { modelCardId } = await a.read.bike.findUniqueOrThrow({ where: { id: bikeId } });
    expect(await wearOnCard(a, modelCardId)).toEqual([]);
    await limitOf(a, bikeId);
    await bikeAt(a, bikeId, 24_000);
    const [bike] = await wearOnCard(a, modelCardId);
    expect(bike?.readings[0]).toMatchObject({ limit: 20_000, measured: 24_000, state: "worn" });
    expect(await wearOnCard(b, modelCardId)).toEqual([]);
  });

  it("comes due sooner as the bike's use says, in the shop's own words, and of filters as of guides", async () => {
    const { a, b } = await twoShops();
    const { bikeId } = await readyToQuote(a);
    const modelCardId = await limitOf(a, bikeId);
    await a.write((tx) =>
      tx.modelFact.create({ data: { modelCardId, key: "filterCleanKm", value: 3000, how: "read" } }),
    );
    await bikeAt(a, bikeId, 6_000);
    const readings = async () => (await wearOnCard(a, modelCardId))[0]?.readings ?? [];
    expect((await readings()).map(({ limit, state }) => [limit, state])).toEqual([
      [20_000, "within"],
      [3_000, "worn"],
    ]);
    await saveSeverity(a, SeveritySchema.parse({ name: "Salt pan", factor: "4" }));
    const [own] = (await severitiesToChoose(a)).filter(({ name }) => name === "Salt pan");
    const bike = await a.read.bike.findUniqueOrThrow({ where: { id: bikeId } });
    const typed = { customerId: String(bike.customerId), modelCardId: String(modelCardId) };
    const change = (severityId: string, version: number) =>
      changeBike(
        a,
        BikeSchema.parse({
          id: String(bikeId),
          version: String(version),
          ...typed,
          odometerKm: "6000",
          severityId,
        }),
      );
    await expect(change("9999", bike.version)).rejects.toThrow("not among the shop's");
    await change(String(own?.id), bike.version);
    expect((await readings()).map(({ limit, state }) => [limit, state])).toEqual([
      [5_000, "worn"],
      [750, "worn"],
    ]);
    expect((await readings())[0]?.because?.map(({ fact }) => fact)).toEqual([
      "every 20000 km on the dry road",
      "“Salt pan”, which divides intervals by 4",
    ]);
    await expect(saveSeverity(a, SeveritySchema.parse({ name: "Salt pan", factor: "2" }))).rejects.toThrow(
      "there already",
    );
    const changed = { id: String(own?.id), version: "1", name: "Salt", factor: "2", active: "on" };
    await saveSeverity(a, SeveritySchema.parse(changed));
    expect((await readings())[0]).toMatchObject({ limit: 10_000, state: "within", next: { atKm: 10_000 } });
    await expect(saveSeverity(a, SeveritySchema.parse(changed))).rejects.toThrow(
      "Somebody else changed this",
    );
    expect((await severitiesToChoose(b)).map(({ name }) => name)).not.toContain("Salt");
    expect(SeveritySchema.safeParse({ name: "Wet", factor: "0.5" }).success).toBe(false);
  });

  it("counts from the job whose operation inspects the guides by its mark, whatever it is called, once it is done", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const { id, number } = await addPackageRevision(a, { packageId: ready.packageId, recipe: LOOKING });
    await publishRevision(a, { revisionId: id, version: 1 });
    expect(number).toBe(2);
    const card = await limitOf(a, ready.bikeId);
    const { jobId } = await acceptQuote(a, yes(await sentQuote(a, ready)));
    await bikeAt(a, ready.bikeId, 24_000);
    const since = async () => (await wearOnCard(a, card))[0]?.readings[0];
    expect(await since()).toMatchObject({ what: expect.stringContaining("no inspection"), measured: 24_000 });
    await looked(a, jobId, 23_000);
    expect(await since()).toMatchObject({
      what: expect.stringContaining("since it was inspected"),
      measured: 1_000,
      state: "within",
    });
  });

  it("does not count from an operation that only has the word in its name", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    const named = BREATHING.operations.map((o) =>
      o.key === "breather" ? { ...o, name: "Read the guide to the breather" } : o,
    );
    const { id } = await addPackageRevision(a, {
      packageId: ready.packageId,
      recipe: { ...BREATHING, operations: named },
    });
    await publishRevision(a, { revisionId: id, version: 1 });
    const card = await limitOf(a, ready.bikeId);
    const { jobId } = await acceptQuote(a, yes(await sentQuote(a, ready)));
    await looked(a, jobId, 23_000);
    await bikeAt(a, ready.bikeId, 24_000);
    expect((await wearOnCard(a, card))[0]?.readings[0]).toMatchObject({ measured: 24_000 });
  });
});

describe("a recipe kept before operations had a mark", () => {
  it("is read with the mark that its English name meant, quoted and worked as before, and leaves as the present version", async () => {
    const { a } = await twoShops();
    const ready = await readyToQuote(a);
    await a.write((tx) =>
      tx.packageRevision.create({
        data: {
          packageId: ready.packageId,
          number: 2,
          state: "published",
          recipe: ofVersion1("Slide Guides looked at"),
          createdAt: a.now,
        },
      }),
    );
    const shown = (await getPackage(a, ready.packageId))?.shown?.recipe;
    expect(shown?.version).toBe(2);
    expect(shown?.operations.filter((o) => o.inspects.length > 0).map((o) => o.key)).toEqual(["breather"]);
    const card = await limitOf(a, ready.bikeId);
    const { jobId } = await acceptQuote(a, yes(await sentQuote(a, ready)));
    await looked(a, jobId, 23_000);
    await bikeAt(a, ready.bikeId, 24_000);
    expect((await wearOnCard(a, card))[0]?.readings[0]).toMatchObject({ measured: 1_000 });
    expect((await packageFile(a, ready.packageId))?.recipe.version).toBe(2);
  });

  it("comes in from a file of that version too", () => {
    const file = {
      format: "throttlewright-package",
      version: 1,
      code: "OLD",
      name: "Old",
      recipe: ofVersion1("Guides looked at"),
    };
    const read = ImportPackageSchema.parse({ file: JSON.stringify(file) });
    expect(read.file.recipe.operations.find((o) => o.key === "breather")?.inspects).toEqual(["slideGuides"]);
    const stray = {
      ...file,
      recipe: { ...BREATHING, operations: [{ ...BREATHING.operations[0], inspects: ["spoons"] }] },
    };
    expect(ImportPackageSchema.safeParse({ file: JSON.stringify(stray) }).success).toBe(false);
  });
});

describe("the form of an operation", () => {
  it("marks what it inspects, and unmarks it", async () => {
    const { a } = await twoShops();
    const { packageId } = await readyToQuote(a);
    await beginDraft(a, { packageId });
    const save = async (more: object) => {
      const print = await a.read.packageRevision.findFirstOrThrow({ where: { packageId, state: "draft" } });
      const form = OperationFormSchema.parse({
        packageId: String(packageId),
        key: "breather",
        name: "Renew the breather filter",
        minutes: "6",
        grade: "workshop",
        accesses: ["seat"],
        over: { [print.version]: "on" },
        ...more,
      });
      await saveItem(a, "operations", form, form.item);
      const recipe = (await getPackage(a, packageId))?.shown?.recipe;
      return recipe?.operations.find((o) => o.key === "breather")?.inspects;
    };
    expect(await save({ inspects: ["slideGuides"] })).toEqual(["slideGuides"]);
    expect(await save({})).toEqual([]);
    expect(
      OperationFormSchema.safeParse({
        packageId: "1",
        name: "X",
        minutes: "5",
        grade: "w",
        inspects: ["spoons"],
      }).success,
    ).toBe(false);
  });
});
