import type { ShopHandle } from "@/lib/db/shop";
import { weatherSpot } from "@/lib/domain/air/places";
import type { Air } from "@/lib/domain/air/weather";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { valuesOf } from "@/lib/domain/tuning/changes";
import { modelCardFacts } from "@/lib/domain/tuning/modelCardFacts";
import type { Taught } from "@/lib/domain/tuning/narrowing";
import type { FuelState } from "@/lib/domain/tuning/targetTypes";
import { cardCalibration, type KeptCalibration } from "../bikes/calibrations";
import { deliveredSettings } from "../bikes/delivered";
import { baselineAir } from "../common/air";

/** The change that a card's uncertainty is told for: a cut opening, a thousand metres up, a mild day. Source: judgement. */
const OPENING_MM = 48;
const UP_M = 1000;
const MILD_C = 20;

export interface CardBench {
  /** As delivered, with that change made. */
  readonly state: FuelState;
  readonly air: Air;
  readonly calibration: KeptCalibration | null;
  readonly taught: Taught;
}

/** A model card ready to be asked how sure its sums are, as delivered; null when there is none. */
export async function cardBench(shop: ShopHandle, cardId: number): Promise<CardBench | null> {
  const [row, home] = await Promise.all([
    shop.read.modelCard.findUnique({
      where: { id: cardId },
      select: {
        displacementCc: true,
        cylinders: true,
        carburettors: true,
        carburettorType: true,
        facts: { select: { key: true, value: true, text: true, how: true }, orderBy: { key: "asc" } },
      },
    }),
    shop.read.settings.findUniqueOrThrow({
      where: { id: 1 },
      select: { altitudeM: true, latitude: true, longitude: true, latitudeSouth: true },
    }),
  ]);
  if (!row) return null;
  const card = modelCardFacts(row);
  const settings = valuesOf(deliveredSettings(row));
  const bike = {
    card,
    carburettors: row.carburettors,
    reference: { settings, air: baselineAir(null, home.altitudeM, weatherSpot(home)) },
  };
  const calibration = await cardCalibration(shop, cardId, { ...bike, id: 0, delivered: settings });
  return {
    state: {
      ...bike,
      settings: { ...settings, airboxOpeningMm: OPENING_MM },
      calibration: calibration?.regions,
    },
    air: placeAir({
      altitudeM: Math.min(5000, home.altitudeM + UP_M),
      temperatureC: MILD_C,
      humidity: null,
    }),
    calibration,
    taught: { id: 0, delivered: settings, rides: calibration?.rides ?? [] },
  };
}
