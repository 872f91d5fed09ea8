import { saveSheet } from "@/lib/data/bikes/sheets";
import { addPackageRevision, createPackage, publishRevision } from "@/lib/data/packages/author";
import { sendQuote } from "@/lib/data/quotes/send";
import { createQuote } from "@/lib/data/quotes/write";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { BREATHING } from "./breathing";

export { BREATHING };

export const ORIGIN = "https://workshop.example";

export interface Ready {
  readonly customerId: number;
  readonly bikeId: number;
  readonly packageId: number;
}

/** A customer's bike with its as-found sheet, the package published, a drawer of jets with `jets` of each size. */
export async function readyToQuote(shop: ShopHandle, jets = 2, name = "Ines Valdborg"): Promise<Ready> {
  const { customerId, bikeId } = await makeBike(shop, name);
  await stockDrawer(shop, jets);
  const packageId = await createPackage(shop, { code: "OPEN", name: "Open-road breathing", summary: "" });
  const revision = await addPackageRevision(shop, { packageId, recipe: BREATHING });
  await publishRevision(shop, { revisionId: revision.id, version: 1 });
  return { customerId, bikeId, packageId };
}

export async function makeBike(
  shop: ShopHandle,
  name: string,
): Promise<{ customerId: number; bikeId: number }> {
  const made = await shop.write(async (tx) => {
    const createdAt = shop.now;
    const customer = await tx.customer.create({
      data: { name, email: "customer@example.com", searchKey: name.toLowerCase(), createdAt },
    });
    const card = await tx.modelCard.upsert({
      where: { make_model_yearFrom: { make: "Tarrant", model: "Drover 580", yearFrom: 2000 } },
      create: {
        make: "Tarrant",
        model: "Drover 580",
        yearFrom: 2000,
        displacementCc: 578,
        carburettorType: "constant vacuum",
        searchKey: "tarrant drover 580",
        createdAt,
        facts: {
          create: [
            { key: "deliveredMainJet", value: 137.5, how: "read" },
            { key: "boreMm", value: 40, how: "measured" },
            { key: "jetConvention", text: "bore", how: "read" },
            { key: "ventedTo", text: "atmosphere", how: "read" },
          ],
        },
      },
      update: {},
    });
    const bike = await tx.bike.create({
      data: {
        customerId: customer.id,
        modelCardId: card.id,
        year: 2006,
        searchKey: "tx",
        createdAt,
        carburettors: { create: [{ position: 1, label: "Single" }] },
      },
    });
    return { customerId: customer.id, bikeId: bike.id };
  });
  const read = (setting: string, value: number) => ({ carburettor: 1, setting, value, how: "read" });
  await saveSheet(shop, {
    bikeId: made.bikeId,
    kind: "asFound",
    values: [
      read("mainJet", 137.5),
      read("pilotJet", 45),
      read("clipPosition", 3),
      read("mixtureScrewTurns", 2),
    ],
  });
  return made;
}

async function stockDrawer(shop: ShopHandle, jets: number): Promise<void> {
  const sizes = [135, 137.5, 140, 142.5, 145, 147.5, 150, 152.5, 155];
  const parts = await shop.write(async (tx) => {
    const base = { costE4: 42_000, supplier: "Own drawer", createdAt: shop.now, searchKey: "x" };
    const made: number[] = [];
    for (const size of sizes) {
      const data = {
        ...base,
        code: `RM-${size}`,
        name: `Main jet ${size}`,
        kind: "jet" as const,
        family: "Round main",
      };
      made.push((await tx.part.create({ data: { ...data, sizeMilli: size * 1000, convention: "bore" } })).id);
    }
    made.push(
      (
        await tx.part.create({
          data: { ...base, code: "BF-20", name: "Breather filter", kind: "filter", costE4: 96_000 },
        })
      ).id,
    );
    return made;
  });
  if (jets > 0)
    for (const partId of parts)
      await recordMove(shop, { partId, kind: "opening", quantityMilli: jets * 1000, unitCostE4: 42_000 });
}

export interface SentQuote {
  readonly id: number;
  readonly revisionId: number;
  readonly hash: string;
  readonly token: string;
}

/** A quote made and sent as the desk would. */
export async function sentQuote(shop: ShopHandle, ready: Ready): Promise<SentQuote> {
  const id = await createQuote(shop, { bikeId: ready.bikeId, packageId: ready.packageId });
  const sent = await sendQuote(shop, { id, version: 1, origin: ORIGIN });
  const { hash } = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: sent.revisionId } });
  return { id, revisionId: sent.revisionId, hash: hash ?? "", token: sent.link?.split("/").at(-1) ?? "" };
}

export const yes = (sent: SentQuote) => ({
  revisionId: sent.revisionId,
  typedName: "Ines Valdborg",
  acknowledgements: ["road-use", "starting-point"],
  shownHash: sent.hash,
  agent: "test browser",
});
