import { z } from "zod";
import { audit, once } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import {
  type AskingBike,
  calibrateFromRides,
  type RiddenEvidence,
  type TaughtRide,
} from "@/lib/domain/tuning/ridden";
import { SETTINGS } from "@/lib/domain/tuning/settings";
import type { RegionCorrection } from "@/lib/domain/tuning/targetTypes";

export interface NewCalibration {
  readonly bikeId: number;
  readonly source: "log" | "asLeft";
  readonly evidence: RiddenEvidence;
  /** Steady samples it rests on; 0 for accepted settings. */
  readonly samples: number;
  readonly note?: string | undefined;
}

const positive = z.number().positive();
const EvidenceSchema = z.object({
  kind: z.enum(["wideband", "accepted"]),
  settings: z.partialRecord(z.enum(SETTINGS.map((s) => s.key)), z.number()),
  air: z.object({ pressurePa: positive, temperatureK: positive, humidity: z.number().min(0).max(1) }),
  at: z
    .array(
      z.object({
        throttle: z.number().min(0).max(1),
        lambda: z.number().min(0.5).max(2).optional(),
        sigma: z.number().min(0.005).max(0.2).optional(),
        rpm: z.number().min(0).max(30_000).optional(),
        seconds: z.number().min(0).max(100_000).optional(),
      }),
    )
    .max(64),
});

/** Keeps what a ride taught about its model, once per key; answers its id. Refuses a log that sampled nothing. */
export async function keepCalibration(
  shop: ShopHandle,
  input: NewCalibration,
  key?: string,
): Promise<number> {
  return shop.write((tx) => once(tx, shop, key, () => keepCalibrationIn(tx, shop, input)));
}

/** As keepCalibration, inside a transaction of the caller's. */
export async function keepCalibrationIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: NewCalibration,
): Promise<number> {
  const evidence = EvidenceSchema.parse(input.evidence);
  if (evidence.at.length === 0)
    throw new Refusal(
      "The log sampled no region, so there is nothing to keep.",
      "Ride longer at steady openings, then read the log again.",
    );
  const bike = await tx.bike.findUnique({ where: { id: input.bikeId }, select: { modelCardId: true } });
  if (!bike)
    throw new Refusal(
      "There is no such bike.",
      "Choose a bike from the list.",
      { bike: "Choose a bike." },
      "missing",
    );
  const { id } = await tx.calibration.create({
    data: {
      bikeId: input.bikeId,
      modelCardId: bike.modelCardId,
      at: shop.now,
      staffId: shop.by.staffId,
      source: input.source,
      regions: evidence,
      samples: input.samples,
      note: input.note ?? "",
    },
    select: { id: true },
  });
  await audit(tx, shop, "calibrated", "modelCard", bike.modelCardId, {
    calibrationId: id,
    bikeId: input.bikeId,
    source: input.source,
    samples: input.samples,
  });
  return id;
}

export interface KeptCalibration {
  /** Of the newest ride kept. */
  readonly id: number;
  readonly at: Date;
  readonly bikeId: number;
  /** Steady samples of all logs. */
  readonly samples: number;
  readonly logs: number;
  readonly accepted: number;
  readonly regions: readonly RegionCorrection[];
  /** What they rest on, for asking what one more ride would do. */
  readonly rides: readonly TaughtRide[];
}

/** Rides that count, newest first: older ones are of a bike that has worn since. Source: judgement. */
const MOST_RIDES = 40;

/**
 * All that was kept for a model card as one posterior, for a bike with this reference; null when nothing was kept. A region
 * that no log sampled says so by its samples. A card whose facts contradict each other has none: calculations refuse it by name.
 */
export async function cardCalibration(
  shop: { readonly read: Pick<ShopTx, "calibration" | "job"> },
  modelCardId: number,
  bike: AskingBike,
): Promise<KeptCalibration | null> {
  const [rows, lastWork] = await Promise.all([
    shop.read.calibration.findMany({
      where: { modelCardId },
      select: { id: true, at: true, bikeId: true, source: true, samples: true, regions: true },
      orderBy: { id: "desc" },
      take: MOST_RIDES,
    }),
    shop.read.job.findFirst({
      where: { bikeId: bike.id, startedAt: { not: null } },
      select: { startedAt: true },
      orderBy: { id: "desc" },
    }),
  ]);
  const since = lastWork?.startedAt ?? null;
  const [newest] = rows;
  if (!newest) return null;
  const rides = rows.flatMap((row) => {
    const kept = EvidenceSchema.safeParse(row.regions);
    if (!kept.success) return [];
    const current = since === null || row.at >= since;
    return [{ ...(kept.data as RiddenEvidence), bikeId: row.bikeId, current }];
  });
  const regions = fitted(bike, rides);
  if (!regions) return null;
  return {
    id: newest.id,
    at: newest.at,
    bikeId: newest.bikeId,
    samples: rows.reduce((sum, row) => sum + row.samples, 0),
    logs: rows.filter((row) => row.source === "log").length,
    accepted: rows.filter((row) => row.source === "asLeft").length,
    regions,
    rides,
  };
}

function fitted(bike: AskingBike, rides: readonly TaughtRide[]): readonly RegionCorrection[] | null {
  try {
    return calibrateFromRides(bike, rides);
  } catch (cause) {
    if (cause instanceof Refusal) return null;
    throw cause;
  }
}
