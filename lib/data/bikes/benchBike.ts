import type { ShopHandle } from "@/lib/db/shop";
import type { Conditions } from "@/lib/domain/air/conditions";
import { weatherSpot } from "@/lib/domain/air/places";
import type { Air } from "@/lib/domain/air/weather";
import { valuesOf } from "@/lib/domain/tuning/changes";
import { modelCardFacts } from "@/lib/domain/tuning/modelCardFacts";
import { modelledParts } from "@/lib/domain/tuning/modelledParts";
import type { FoundCarburettor, ModelCardFacts, SettingValues } from "@/lib/domain/tuning/targetTypes";
import { ConditionsSchema } from "@/lib/schemas/quotes";
import { baselineAir } from "../common/air";
import { cardCalibration, type KeptCalibration } from "./calibrations";
import { deliveredSettings, type ModelCardRow } from "./delivered";
import { fittedParts } from "./describedParts";
import { fittedOn } from "./fitted";
import { foundCarburettor } from "./found";
import { fittedNeedles } from "./needles";

const NAME = {
  id: true,
  plate: true,
  year: true,
  modelCard: { select: { make: true, model: true } },
  customer: { select: { name: true } },
} as const;

interface Named {
  readonly plate: string;
  readonly year: number | null;
  readonly modelCard: { readonly make: string; readonly model: string };
  readonly customer: { readonly name: string };
}

const nameOf = (bike: Named) =>
  [`${bike.modelCard.make} ${bike.modelCard.model}`, bike.year, bike.plate, bike.customer.name]
    .filter(Boolean)
    .join(", ");

/** What the bench knows of a bike: its model, what is fitted now, and what its model was calibrated by. */
export interface BenchBike {
  readonly id: number;
  readonly name: string;
  readonly modelCardId: number;
  readonly model: string;
  readonly facts: ModelCardRow;
  /** Drawers that its model's jets come from; empty where its card does not say. */
  readonly drawers: { readonly main: string; readonly pilot: string };
  readonly card: ModelCardFacts;
  readonly carburettors: readonly (FoundCarburettor & { readonly position: number })[];
  /** Where the fitted settings come from: a sheet, or as delivered. */
  readonly settingsFrom: { readonly kind: "asFound" | "asLeft"; readonly takenAt: Date } | null;
  /** Conditions the sheet was taken in; null when it does not say. */
  readonly conditions: Conditions | null;
  /** The air those settings are taken to be right for. */
  readonly baseline: Air;
  /** As its maker delivered it, as far as the card says. */
  readonly delivered: SettingValues;
  readonly calibration: KeptCalibration | null;
}

/** One bike for the bench; null when there is none. */
export async function benchBike(shop: ShopHandle, id: number): Promise<BenchBike | null> {
  const [bike, home, sheet, needles, parts] = await Promise.all([
    shop.read.bike.findUnique({
      where: { id },
      select: {
        ...NAME,
        modelCardId: true,
        carburettors: { select: { position: true, label: true }, orderBy: { position: "asc" } },
        modelCard: {
          select: {
            make: true,
            model: true,
            displacementCc: true,
            cylinders: true,
            carburettors: true,
            carburettorType: true,
            mainFamily: true,
            pilotFamily: true,
            facts: { select: { key: true, value: true, text: true, how: true }, orderBy: { key: "asc" } },
          },
        },
      },
    }),
    shop.read.settings.findUniqueOrThrow({
      where: { id: 1 },
      select: { altitudeM: true, latitude: true, longitude: true, latitudeSouth: true },
    }),
    fittedOn(shop.read, id),
    fittedNeedles(shop.read, id),
    fittedParts(shop.read, id),
  ]);
  if (!bike) return null;
  const facts = bike.modelCard;
  const card = modelCardFacts(facts);
  const baseline = baselineAir(sheet?.conditions, home.altitudeM, weatherSpot(home));
  const carburettors = bike.carburettors.map((c) => ({
    position: c.position,
    ...foundCarburettor(c, { facts, card, values: sheet?.values ?? [], needles, parts }),
  }));
  const told = ConditionsSchema.safeParse(sheet?.conditions);
  return {
    id: bike.id,
    name: nameOf(bike),
    modelCardId: bike.modelCardId,
    model: `${facts.make} ${facts.model}`,
    facts,
    drawers: { main: facts.mainFamily, pilot: facts.pilotFamily },
    card,
    carburettors,
    settingsFrom: sheet && sheet.kind !== "target" ? { kind: sheet.kind, takenAt: sheet.takenAt } : null,
    conditions: told.success ? told.data : null,
    baseline,
    delivered: valuesOf(deliveredSettings(facts)),
    calibration: await cardCalibration(shop, bike.modelCardId, {
      id: bike.id,
      card,
      delivered: valuesOf(deliveredSettings(facts)),
      carburettors: Math.max(1, carburettors.length),
      reference: {
        settings: valuesOf(carburettors[0]?.settings ?? {}),
        needle: carburettors[0]?.needle,
        ...modelledParts(carburettors[0]?.parts),
        air: baseline,
      },
    }),
  };
}
