import { recordEffect } from "@/lib/data/jobs/effects";
import type { Role } from "@/lib/domain/access/permissions";
import { EffectSchema } from "@/lib/schemas/effects";
import type { Stage } from "../stage";
import { chance } from "./chance";

interface ReadOn {
  readonly jobId: number;
  readonly bikeId: number;
  readonly role: Role;
  /** The same for both sides of a job. */
  readonly seed: number;
}

/** What is read before work that opens the breathing, and once more after it: a little louder, a steadier idle, a quicker start. */
export async function readEffects(
  stage: Stage,
  at: Date,
  { jobId, bikeId, role, seed }: ReadOn,
  side: "before" | "after",
): Promise<void> {
  const luck = chance(seed);
  const read = (
    kind: string,
    before: number,
    change: number,
    more: Readonly<Record<string, string>> = {},
  ) => {
    const value = side === "before" ? before : before + change;
    return EffectSchema.parse({
      bikeId: String(bikeId),
      jobId: String(jobId),
      side,
      kind,
      value: String(Number(value.toFixed(1))),
      ...more,
    });
  };
  const meter = { distanceM: "0.5", rpm: "4000", instrument: "Class 2 meter, calibrated in March" };
  const shop = stage.shop.as(role, at);
  for (const input of [
    read("noise", luck.between(880, 915) / 10, luck.between(12, 38) / 10, meter),
    read("idle", luck.between(90, 170), -luck.between(30, 70)),
    read("starting", luck.between(22, 48) / 10, -luck.between(4, 15) / 10),
  ])
    await recordEffect(shop, input);
}
