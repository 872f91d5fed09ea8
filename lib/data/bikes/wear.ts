import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { MEASURABLES, measuredName } from "@/lib/domain/tuning/measurables";
import { nextCheck } from "@/lib/domain/tuning/nextCheck";
import { dueAgain, measuredWear, type WearItem, type WearReading, wear } from "@/lib/domain/tuning/wear";
import { LIMIT_FACTS, wearLimit } from "@/lib/domain/tuning/wearLimits";
import { type BikeReading, readingsOn } from "./readings";

export interface BikeWear {
  readonly bikeId: number;
  readonly name: string;
  readonly readings: readonly WearReading[];
}

const MOST = 50;
/** Newest jobs of a bike that did such a thing: of those before, nobody needs to know. */
const JOBS = 20;

/** What is done again after so many kilometres, by the fact of the card that says how many. */
const AGAIN = [
  {
    item: "slideGuides",
    fact: "guideCheckKm",
    since: "Slide guide, since it was inspected",
    never: "Slide guide, no inspection is kept",
  },
  {
    item: "filters",
    fact: "filterCleanKm",
    since: "Air filter, prefilter and breather filter, since they were cleaned",
    never: "Air filter, prefilter and breather filter, no cleaning is kept",
  },
] as const satisfies readonly { readonly item: WearItem; readonly [key: string]: string }[];
const WEARS = MEASURABLES.filter((one) => one.kind === "wear").map((one) => one.key as string);

/**
 * Wear limits of a card against what was measured on its newest bikes: a spring by the newest sheet that measured it, guides and
 * filters by the odometer since a step was done that looks at them, other parts by the newest reading of each on a job card. Intervals are
 * those of the bike's use.
 */
export async function wearOnCard(shop: ShopHandle, cardId: number): Promise<readonly BikeWear[]> {
  return wearOf(shop, cardId, { modelCardId: cardId });
}

/** The same of one bike. */
export async function wearOnBike(
  shop: ShopHandle,
  bike: { readonly id: number; readonly modelCardId: number },
): Promise<readonly WearReading[]> {
  const [own] = await wearOf(shop, bike.modelCardId, { id: bike.id });
  return own?.readings ?? [];
}

async function wearOf(
  shop: ShopHandle,
  cardId: number,
  where: Prisma.BikeWhereInput,
): Promise<readonly BikeWear[]> {
  const facts = await shop.read.modelFact.findMany({
    where: { modelCardId: cardId, key: { in: [...AGAIN.map(({ fact }) => fact), ...LIMIT_FACTS] } },
    select: { key: true, value: true, text: true, how: true },
    orderBy: { key: "asc" },
  });
  const limit = (key: string) => facts.find((f) => f.key === key)?.value ?? null;
  const springMin = limit("springFreeMinMm");
  const card = await shop.read.modelCard.findUnique({ where: { id: cardId }, select: { serviceKm: true } });
  const everyKm = card?.serviceKm ?? null;
  const bikes = await bikesOf(shop, where);
  const parts = await readingsOn(
    shop.read,
    bikes.map((bike) => bike.id),
    { measures: { in: WEARS } },
  );
  const worn = Map.groupBy(parts, (one) => one.bikeId);
  return bikes.flatMap((bike) => {
    const spring = bike.sheets[0]?.values[0]?.value ?? null;
    const own = worn.get(bike.id) ?? [];
    const { severity, odometerKm } = bike;
    const readings = [
      ...(springMin === null ? [] : [wear("Slide spring free length", "mm", springMin, spring, false)]),
      ...AGAIN.flatMap(({ item, fact, since, never }) => {
        const roadKm = limit(fact);
        if (roadKm === null) return [];
        const done = bike.jobs.find((job) =>
          job.steps.some((s) => s.inspections.some((i) => i.item === item)),
        );
        const doneAtKm = done?.odometerKm ?? null;
        return [dueAgain({ what: done ? since : never, roadKm, severity, odometerKm, doneAtKm })];
      }),
      ...newestOf(own).flatMap((one) => {
        const most = wearLimit(one.measures, one.station, facts);
        const unit = MEASURABLES.find((each) => each.key === one.measures)?.unit ?? "";
        const side = one.carburettor === null ? "" : `, carburettor ${one.carburettor}`;
        const name = `${measuredName(one.measures, one.station)}${side}`;
        if (!most) return [];
        const checked = { readings: checkedOf(own, one), limit: most, everyKm, severity };
        const next = nextCheck(checked);
        return [{ ...measuredWear(name, unit, most, one.value), ...(next ? { next } : {}) }];
      }),
    ];
    const name = [bike.customer.name, bike.plate].filter(Boolean).join(", ");
    return readings.length === 0 ? [] : [{ bikeId: bike.id, name, readings }];
  });
}

const sameAs = (one: BikeReading) => (other: BikeReading) =>
  other.measures === one.measures && other.carburettor === one.carburettor && other.station === one.station;

/** All readings of what one reading is of, with the odometer that each was taken at. */
const checkedOf = (readings: readonly BikeReading[], one: BikeReading) =>
  readings
    .filter(sameAs(one))
    .flatMap(({ odometerKm, value }) => (odometerKm === null ? [] : [{ odometerKm, value }]));

/** The newest reading of each part, carburettor and station. */
function newestOf(readings: readonly BikeReading[]): BikeReading[] {
  const groups = Map.groupBy(
    readings,
    (one) => `${one.measures} ${one.carburettor ?? ""} ${one.station ?? ""}`,
  );
  return [...groups.values()].flatMap((own) => own.at(-1) ?? []);
}

const bikesOf = (shop: ShopHandle, where: Prisma.BikeWhereInput) =>
  shop.read.bike.findMany({
    where,
    select: {
      id: true,
      plate: true,
      odometerKm: true,
      customer: { select: { name: true } },
      sheets: {
        where: { values: { some: { setting: "springLengthMm", how: "measured" } } },
        select: {
          values: {
            where: { setting: "springLengthMm", how: "measured" },
            select: { value: true },
            orderBy: { value: "asc" },
          },
        },
        orderBy: { id: "desc" },
        take: 1,
      },
      severity: { select: { name: true, factor: true } },
      jobs: {
        where: { steps: { some: { state: "done", inspections: { some: {} } } } },
        select: {
          odometerKm: true,
          steps: {
            where: { state: "done", inspections: { some: {} } },
            select: { inspections: { select: { item: true }, orderBy: { item: "asc" } } },
            orderBy: { id: "asc" },
          },
        },
        orderBy: { id: "desc" },
        take: JOBS,
      },
    },
    orderBy: { id: "desc" },
    take: MOST,
  });
