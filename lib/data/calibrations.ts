import { z } from "zod";
import { audit, once } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { RegionCorrection } from "@/lib/domain/tuning/targetTypes";

export interface NewCalibration {
  readonly bikeId: number;
  readonly source: "log" | "asLeft";
  readonly regions: readonly RegionCorrection[];
  /** Steady samples it rests on. */
  readonly samples: number;
  readonly note?: string | undefined;
}

const RegionsSchema = z.array(
  z.object({
    region: z.enum(["pilot", "straight", "taper", "main"]),
    value: z.number().min(-1).max(1),
    sigma: z.number().min(0).max(1),
    samples: z.number().int().min(0),
  }),
);

/** Keeps what a bike taught as its model card's newest calibration, once per key; answers its id. Refuses one that nothing sampled. */
export async function keepCalibration(
  shop: ShopHandle,
  input: NewCalibration,
  key?: string,
): Promise<number> {
  const regions = RegionsSchema.parse(input.regions);
  if (!regions.some((r) => r.samples > 0))
    throw new Refusal(
      "The log sampled no region, so there is nothing to keep.",
      "Ride longer at steady openings, then read the log again.",
    );
  return shop.write((tx) =>
    once(tx, shop, key, async () => {
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
          regions: regions.map((r) => ({ ...r })),
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
    }),
  );
}

export interface KeptCalibration {
  readonly id: number;
  readonly at: Date;
  readonly bikeId: number;
  readonly samples: number;
  readonly regions: readonly RegionCorrection[];
}

/** A model card's newest calibration; null when none was kept. */
export async function latestCalibration(
  shop: Pick<ShopHandle, "read">,
  modelCardId: number,
): Promise<KeptCalibration | null> {
  const row = await shop.read.calibration.findFirst({
    where: { modelCardId },
    select: { id: true, at: true, bikeId: true, samples: true, regions: true },
    orderBy: { id: "desc" },
  });
  return row && { ...row, regions: RegionsSchema.parse(row.regions) };
}
