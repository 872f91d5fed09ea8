import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { settingDef } from "@/lib/domain/tuning/settings";
import { limitsOn, limitsText } from "./heldTo";

interface Value {
  readonly carburettor: number;
  readonly setting: string;
  readonly value: number;
}

/** True where two values of a setting are one at the figures that are shown of it. */
export function sameShown(setting: string, one: number, other: number): boolean {
  const decimals = settingDef(setting)?.decimals ?? 3;
  return Math.abs(one - other) <= 0.5 * 10 ** -decimals + 1e-9;
}

/**
 * Settings that were measured once more as the bike was made ready, as further readings of their hold points: card, sheet and handover
 * then say one number. Refuses one outside the limits of its hold point.
 */
export async function measureAgainIn(
  tx: ShopTx,
  shop: ShopHandle,
  job: { readonly id: number; readonly bikeId: number },
  again: readonly Value[],
): Promise<void> {
  if (again.length === 0) return;
  const limitsOf = await limitsOn(tx, job);
  for (const { carburettor, setting, value } of again) {
    const holds = await tx.holdPoint.findMany({
      where: { measures: setting, kind: "reading", step: { jobId: job.id }, readings: { some: {} } },
      select: {
        id: true,
        name: true,
        measures: true,
        station: true,
        low: true,
        high: true,
        carburettor: true,
        overrideReason: true,
        step: { select: { position: true } },
        readings: { select: { carburettor: true }, orderBy: { id: "desc" }, take: 20 },
      },
      orderBy: [{ step: { position: "desc" } }, { position: "desc" }],
      take: 20,
    });
    const of = (one: (typeof holds)[number]) => [one.carburettor, ...one.readings.map((r) => r.carburettor)];
    const hold = holds.find((one) => of(one).includes(carburettor)) ?? holds[0];
    if (!hold) throw new Error(`No reading of ${setting} on the card of job ${job.id}.`);
    const limits = limitsOf(hold, hold.step.position);
    const { low, high } = limits;
    const inside = (low === null || value >= low) && (high === null || value <= high);
    if (!inside && hold.overrideReason === "") {
      const message = `${hold.name} is ${value}, not ${limitsText(limits)}.`;
      throw new Refusal(message, "Set it once more, or take its step back and have it let pass there.", {
        [`values.${carburettor}.${setting}`]: message,
      });
    }
    await tx.reading.create({
      data: {
        holdPointId: hold.id,
        value,
        inside,
        low,
        high,
        carburettor: hold.carburettor === null && of(hold).includes(carburettor) ? carburettor : null,
        at: shop.now,
        staffId: shop.by.staffId,
      },
      select: { id: true },
    });
  }
}
