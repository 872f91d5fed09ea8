import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { asksCarburettor } from "@/lib/domain/sheets/afterJob";
import { readingIn } from "@/lib/domain/sheets/typedReading";
import { limitsOn, limitsText } from "./heldTo";
import type { StepOfCard } from "./steps";

/** A reading of a hold point; `carburettor` where the hold point leaves open which it is of. */
export interface ReadingTaken {
  readonly holdPointId: number;
  readonly value: number;
  readonly unit?: string | undefined;
  readonly carburettor?: number | undefined;
}

/** Every reading in its hold point's own unit and of a carburettor that is known; refuses with all that cannot be. */
export function inOwnUnits(
  step: StepOfCard,
  readings: readonly ReadingTaken[],
  units: Readonly<Record<string, string>> | undefined,
): ReadingTaken[] {
  const fields: Record<string, string> = {};
  const positions = step.job.bike.carburettors.map((one) => one.position);
  const read = readings.map((reading): ReadingTaken => {
    const { holdPointId, value, unit, carburettor } = reading;
    const hold = readingOf(step, holdPointId);
    const found = readingIn(hold, value, unit || units?.[holdPointId] || "");
    if ("problem" in found) fields[`readings.${holdPointId}`] = found.problem;
    if (!asksCarburettor(hold, positions.length))
      return { holdPointId, value: "problem" in found ? value : found.value };
    if (carburettor === undefined || !positions.includes(carburettor))
      fields[`carburettors.${holdPointId}`] = `Say which carburettor ${hold.name} was read on.`;
    return { holdPointId, value: "problem" in found ? value : found.value, carburettor };
  });
  const [first] = Object.values(fields);
  if (first) throw new Refusal(first, "Nothing was saved: look at the marked readings.", fields);
  return read;
}

/** Keeps every reading with the limits that it was held to; says those outside them in words. */
export async function takeReadingsIn(
  tx: ShopTx,
  shop: ShopHandle,
  step: StepOfCard,
  readings: readonly ReadingTaken[],
): Promise<string[]> {
  if (readings.length === 0) return [];
  const limitsOf = await limitsOn(tx, { id: step.jobId, bikeId: step.job.bikeId });
  const outside: string[] = [];
  for (const { holdPointId, value, carburettor } of readings) {
    const hold = readingOf(step, holdPointId);
    if (hold.passed || hold.overrideReason) continue;
    const limits = limitsOf(hold, step.position);
    const { low, high } = limits;
    const inside = (low === null || value >= low) && (high === null || value <= high);
    const said = { value, inside, low, high, carburettor: carburettor ?? null };
    await tx.reading.create({
      data: { holdPointId, ...said, at: shop.now, staffId: shop.by.staffId },
      select: { id: true },
    });
    const others = carburettor === undefined ? [] : await othersOutside(tx, hold.id, carburettor);
    if (inside && others.length === 0)
      await tx.holdPoint.update({ where: { id: hold.id }, data: { passed: true }, select: { id: true } });
    if (!inside)
      outside.push(`${hold.name} ${value}${hold.unit && ` ${hold.unit}`}, not ${limitsText(limits)}`);
    for (const other of others)
      outside.push(`${hold.name} of carburettor ${other} was outside: read it again`);
  }
  return outside;
}

/** Other carburettors whose newest reading at this hold point lies outside its limits. */
async function othersOutside(tx: ShopTx, holdPointId: number, carburettor: number): Promise<number[]> {
  const newest = new Map<number, boolean>();
  const rows = await tx.reading.findMany({
    where: { holdPointId, carburettor: { not: carburettor } },
    select: { carburettor: true, inside: true },
    orderBy: { id: "asc" },
    take: 200,
  });
  for (const row of rows) if (row.carburettor !== null) newest.set(row.carburettor, row.inside);
  return [...newest].flatMap(([other, inside]) => (inside ? [] : [other]));
}

function readingOf(step: StepOfCard, holdPointId: number): StepOfCard["holdPoints"][number] {
  const hold = step.holdPoints.find((one) => one.id === holdPointId && one.kind === "reading");
  if (!hold) throw new Refusal("This reading is not of this step.", "Open the card again.", {}, "missing");
  return hold;
}
