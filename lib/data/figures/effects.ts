import type { ShopHandle } from "@/lib/db/shop";
import { countedEffects } from "../jobs/packageEffects";

/** What a package did on the bikes of this shop: by kind the middle change with its spread, and each bike behind it. */
export async function packageEffects(shop: ShopHandle, packageId: number) {
  const found = await countedEffects(shop.read, packageId);
  if (found.length === 0) return [];
  const bikes = await shop.read.bike.findMany({
    where: { id: { in: [...new Set(found.flatMap(({ counted }) => counted.map((one) => one.bikeId)))] } },
    select: {
      id: true,
      plate: true,
      customer: { select: { name: true } },
      modelCard: { select: { make: true, model: true } },
    },
    orderBy: { id: "asc" },
  });
  const named = new Map(
    bikes.map((bike) => [
      bike.id,
      [`${bike.modelCard.make} ${bike.modelCard.model}`, bike.plate || bike.customer.name].join(", "),
    ]),
  );
  return found.map(({ found: over, counted }) => ({
    ...over,
    counted: counted.map((one) => ({ ...one, name: named.get(one.bikeId) ?? "a bike" })),
  }));
}
export type PackageEffects = Awaited<ReturnType<typeof packageEffects>>;

/** What each package of a quote did on other bikes here; packages that nothing is kept of are left out. */
export async function effectsOfQuote(shop: ShopHandle, quoteId: number) {
  const works = await shop.read.quoteWork.findMany({
    where: { revision: { quoteId }, packageRevisionId: { not: null } },
    select: {
      revision: { select: { number: true, quote: { select: { revisionNumber: true } } } },
      packageRevision: { select: { package: { select: { id: true, name: true } } } },
    },
    orderBy: [{ revisionId: "desc" }, { position: "asc" }],
    take: 60,
  });
  const packages = new Map(
    works
      .filter(({ revision }) => revision.number === revision.quote.revisionNumber)
      .flatMap(({ packageRevision: of }) => (of ? [[of.package.id, of.package] as const] : [])),
  );
  const told = await Promise.all(
    [...packages.values()].map(async (one) => ({ ...one, effects: await packageEffects(shop, one.id) })),
  );
  return told.filter((one) => one.effects.length > 0);
}
