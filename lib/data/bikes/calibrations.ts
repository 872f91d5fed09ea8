import { z } from "zod";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { calibrateFromRides, type RiddenEvidence } from "@/lib/domain/tuning/ridden";
import { SETTINGS } from "@/lib/domain/tuning/settings";
import type { FuelState, RegionCorrection } from "@/lib/domain/tuning/targetTypes";

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
  return shop.write((tx) =>
    once(tx, shop, "kept a calibration", { ...input, key }, () => keepCalibrationIn(tx, shop, input)),
  );
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
}

/** Rides that count, newest first: older ones are of a bike that has worn since. Source: judgement. */
const MOST_RIDES = 40;

/**
 * All that was kept for a model card as one posterior, for a bike with this reference; null when nothing was kept. A region
 * that no log sampled says so by its samples. A card whose facts contradict each other has none: calculations refuse it by name.
 */
export async function cardCalibration(
  shop: { readonly read: Pick<ShopTx, "calibration"> },
  modelCardId: number,
  bike: Pick<FuelState, "card" | "carburettors" | "reference">,
): Promise<KeptCalibration | null> {
  const rows = await shop.read.calibration.findMany({
    where: { modelCardId },
    select: { id: true, at: true, bikeId: true, source: true, samples: true, regions: true },
    orderBy: { id: "desc" },
    take: MOST_RIDES,
  });
  const [newest] = rows;
  if (!newest) return null;
  const rides = rows.flatMap((row) => {
    const kept = EvidenceSchema.safeParse(row.regions);
    return kept.success ? [kept.data as RiddenEvidence] : [];
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
  };
}

function fitted(
  bike: Pick<FuelState, "card" | "carburettors" | "reference">,
  rides: readonly RiddenEvidence[],
): readonly RegionCorrection[] | null {
  try {
    return calibrateFromRides(bike, rides);
  } catch (cause) {
    if (cause instanceof Refusal) return null;
    throw cause;
  }
}
