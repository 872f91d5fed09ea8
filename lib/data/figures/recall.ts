import type { ShopHandle } from "@/lib/db/shop";
import { type Spread, spreadsOf } from "@/lib/domain/sheets/spread";
import { SETTINGS, settingDef } from "@/lib/domain/tuning/settings";
import { ConditionsSchema } from "@/lib/schemas/quotes";
import type { RecallFilter } from "@/lib/schemas/recall";
import { newestSheets, packagesLike } from "./recallRows";

/** How many bikes are told of. */
const BIKES = 5;

/** A bike of the same model as it was left last. */
export interface RecalledBike {
  readonly bikeId: number;
  readonly name: string;
  readonly jobId: number;
  readonly jobNumber: string;
  readonly work: string;
  readonly leftAt: Date;
  readonly altitudeM: number | null;
  readonly season: string | null;
  /** Settings of its first carburettor, in the sheet's order. */
  readonly values: readonly { readonly setting: string; readonly value: number }[];
  /** What its last ride said; "" where it was not ridden. */
  readonly ridden: string;
  /** Changes that were made after a ride and not left so. */
  readonly rejected: readonly string[];
  /** What its owner said when asked; "" where nobody asked. */
  readonly said: string;
}

export interface Recall {
  readonly bikes: readonly RecalledBike[];
  readonly spreads: readonly Spread[];
  readonly filter: RecallFilter | undefined;
  /** Packages that were done on bikes of this model: what else they can be narrowed to. */
  readonly packages: readonly { readonly id: number; readonly name: string }[];
}

/**
 * The last bikes of a bike's model as they were left by jobs, each once, newest first, with the spread of their settings. A filter
 * tells of the last ones on which its change was made, each as that job left it.
 */
export async function recallLike(shop: ShopHandle, bikeId: number, filter?: RecallFilter): Promise<Recall> {
  const [ids, packages] = await Promise.all([
    newestSheets(shop, bikeId, BIKES, filter),
    packagesLike(shop, bikeId),
  ]);
  const sheets = await shop.read.settingSheet.findMany({
    where: { id: { in: ids } },
    select: SHEET,
    orderBy: { id: "desc" },
  });
  const bikes = sheets.flatMap(told);
  return { bikes, spreads: spreadsOf(bikes), filter, packages };
}

const SHEET = {
  bikeId: true,
  takenAt: true,
  conditions: true,
  values: {
    select: { carburettor: true, setting: true, value: true },
    orderBy: { id: "asc" },
    take: 200,
  },
  bike: {
    select: {
      plate: true,
      customer: { select: { name: true } },
      followUps: {
        where: { state: "done", outcome: { not: "" } },
        select: { jobId: true, outcome: true },
        orderBy: { id: "desc" },
        take: 10,
      },
    },
  },
  job: {
    select: {
      id: true,
      number: true,
      title: true,
      rides: {
        select: {
          good: true,
          note: true,
          observations: { select: { throttle: true, sign: true }, orderBy: { id: "asc" }, take: 12 },
          corrections: {
            where: { acceptedAt: { not: null } },
            select: { setting: true, fromValue: true, toValue: true },
            orderBy: { id: "asc" },
            take: 12,
          },
        },
        orderBy: { id: "asc" },
        take: 30,
      },
    },
  },
} as const;

type Row = Awaited<ReturnType<typeof rowOf>>;
const rowOf = (shop: ShopHandle) => shop.read.settingSheet.findFirstOrThrow({ select: SHEET });

function told({ bikeId, takenAt, conditions, values, bike, job }: Row): RecalledBike[] {
  if (!job) return [];
  const air = ConditionsSchema.safeParse(conditions);
  const first = Math.min(...values.map((one) => one.carburettor));
  const own = values.filter((one) => one.carburettor === first);
  const order = SETTINGS.map((def) => def.key as string);
  const last = job.rides.at(-1);
  const off = (last?.observations ?? []).filter((one) => one.sign !== "good");
  const felt = off.map(
    (one) => `${one.sign} at ${one.throttle === "threeQuarter" ? "three quarters" : one.throttle}`,
  );
  return [
    {
      bikeId,
      name: [bike.customer.name, bike.plate].filter(Boolean).join(", "),
      jobId: job.id,
      jobNumber: job.number,
      work: job.title,
      leftAt: takenAt,
      altitudeM: air.success ? air.data.altitudeM : null,
      season: air.success ? air.data.season : null,
      values: own
        .map(({ setting, value }) => ({ setting, value }))
        .sort((a, b) => order.indexOf(a.setting) - order.indexOf(b.setting)),
      ridden: !last
        ? ""
        : [last.good ? "good" : felt.join(", ") || "not good", last.note].filter(Boolean).join(": "),
      rejected: job.rides
        .flatMap((ride) => ride.corrections)
        .filter(({ setting, toValue }) =>
          own.some((one) => one.setting === setting && Math.abs(one.value - toValue) > 1e-9),
        )
        .map(({ setting, fromValue, toValue }) => {
          const def = settingDef(setting);
          return `${def?.name ?? setting} ${fromValue} to ${toValue}${def?.unit ? ` ${def.unit}` : ""}`;
        }),
      said: bike.followUps.find((one) => one.jobId === job.id)?.outcome ?? "",
    },
  ];
}
