import { z } from "zod";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { valuesOf } from "@/lib/domain/tuning/changes";
import {
  type AskingBike,
  calibrateFromRides,
  type RiddenEvidence,
  type TaughtRide,
} from "@/lib/domain/tuning/ridden";
import { SETTINGS } from "@/lib/domain/tuning/settings";
import type { RegionCorrection } from "@/lib/domain/tuning/targetTypes";
import { unseenWork } from "@/lib/domain/tuning/unseen";
import { deliveredSettings } from "./delivered";

export interface NewCalibration {
  readonly bikeId: number;
  readonly source: "log" | "asLeft" | "felt";
  /** The job it was ridden on; absent for a log read on the Bench. */
  readonly jobId?: number | undefined;
  readonly evidence: RiddenEvidence;
  /** Steady samples it rests on; 0 for accepted settings. */
  readonly samples: number;
  readonly note?: string | undefined;
}

const positive = z.number().positive();
const FlowSchema = z.object({ flowLMin: z.number().min(0), atPa: z.number().min(0) });
const EvidenceSchema = z.object({
  kind: z.enum(["wideband", "accepted", "felt"]),
  settings: z.partialRecord(z.enum(SETTINGS.map((s) => s.key)), z.number()),
  needle: z
    .object({
      straightMm: positive,
      straightLiftMm: z.number(),
      clipAt: z.number(),
      clipStepMm: z.number(),
      clips: z.int().min(0).max(10),
      groovesAssumed: z.boolean().exactOptional(),
      planeMm: z.number().exactOptional(),
      tapers: z.array(z.object({ lengthMm: positive, includedAngleDeg: z.number() })).max(80),
    })
    .exactOptional(),
  spring: z
    .object({
      freeMm: positive,
      coils: z.number().min(0).nullable(),
      rateNPerM: z.number().min(0).nullable(),
      exchanged: z.boolean(),
    })
    .exactOptional(),
  flows: z
    .object({ filter: FlowSchema.exactOptional(), silencer: FlowSchema.exactOptional() })
    .exactOptional(),
  air: z.object({ pressurePa: positive, temperatureK: positive, humidity: z.number().min(0).max(1) }),
  at: z
    .array(
      z.object({
        throttle: z.number().min(0).max(1),
        lambda: z.number().min(0.5).max(2).optional(),
        sigma: z.number().min(0.005).max(0.2).optional(),
        sign: z.enum(["lean", "rich"]).optional(),
        rpm: z.number().min(0).max(30_000).optional(),
        seconds: z.number().min(0).max(100_000).optional(),
      }),
    )
    .max(64),
  sensor: z.string().max(60).optional(),
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
  const heldBecause = (await unseenIn(tx, input.bikeId, evidence)).join(" ");
  const { id } = await tx.calibration.create({
    data: {
      jobId: input.jobId ?? null,
      heldBecause,
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
    heldBecause,
  });
  return id;
}

/** What was ever fitted to a bike that the model cannot see: parts used on its jobs and not given back. */
async function unseenIn(
  tx: ShopTx,
  bikeId: number,
  { settings, needle, spring, flows }: Pick<RiddenEvidence, "settings" | "needle" | "spring" | "flows">,
): Promise<readonly string[]> {
  const [moves, bike] = await Promise.all([
    tx.move.findMany({
      where: {
        job: { bikeId },
        kind: { in: ["use", "returnToStock"] },
        part: { kind: { in: needle ? ["filter", "spring"] : ["needle", "filter", "spring"] } },
      },
      select: { partId: true, quantityMilli: true, part: { select: { kind: true, name: true } } },
      orderBy: { id: "asc" },
      take: 500,
    }),
    tx.bike.findUniqueOrThrow({
      where: { id: bikeId },
      select: { modelCard: { select: { facts: { select: { key: true, value: true } } } } },
    }),
  ]);
  const left = new Map<number, number>();
  for (const m of moves) left.set(m.partId, (left.get(m.partId) ?? 0) + m.quantityMilli);
  const parts = moves.filter((m) => (left.get(m.partId) ?? 0) < 0).map((m) => m.part);
  return unseenWork(parts, settings, valuesOf(deliveredSettings(bike.modelCard)), { spring, flows });
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
  const [kept, lastWork] = await Promise.all([
    shop.read.calibration.findMany({
      where: { modelCardId },
      select: {
        id: true,
        at: true,
        bikeId: true,
        source: true,
        samples: true,
        regions: true,
        heldBecause: true,
        verdicts: { select: { act: true }, orderBy: { id: "desc" }, take: 1 },
      },
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
  const rows = kept.filter((row) => teaches(row, bike.id));
  const [newest] = rows;
  if (!newest) return null;
  const rides = rows.flatMap((row) => {
    const read = EvidenceSchema.safeParse(row.regions);
    if (!read.success) return [];
    const current = since === null || row.at >= since;
    return [{ ...(read.data as RiddenEvidence), bikeId: row.bikeId, current }];
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

/** Whether a lesson counts for a bike: not taken out, and not held on another bike unless a person released it to the card. */
function teaches(
  row: { bikeId: number; heldBecause: string; verdicts: readonly { act: string }[] },
  bikeId: number,
): boolean {
  const verdict = row.verdicts[0]?.act;
  if (verdict === "takeOut") return false;
  return row.heldBecause === "" || row.bikeId === bikeId || verdict === "release";
}

function fitted(bike: AskingBike, rides: readonly TaughtRide[]): readonly RegionCorrection[] | null {
  try {
    return calibrateFromRides(bike, rides);
  } catch (cause) {
    if (cause instanceof Refusal) return null;
    throw cause;
  }
}
