/** Parts that a sheet's single figures cannot hold, as they are described on a bike. Lengths in mm; what nobody measured is null. */
export type DescribedPart =
  | {
      /** A jet drilled or reamed here: kept apart from numbered ones. */
      readonly kind: "jet";
      readonly setting: "mainJet" | "pilotJet";
      /** The number it was made from. */
      readonly number: number | null;
      readonly by: "pin gauge" | "flow";
      /** Bore in mm by pin gauge, or the flow number by flow. */
      readonly measured: number;
    }
  | {
      readonly kind: "spring";
      readonly change: "delivered" | "cut" | "exchanged";
      readonly freeMm: number;
      readonly wireMm: number | null;
      readonly coils: number | null;
      readonly rateNPerM: number | null;
    }
  | { readonly kind: "liftHoles"; readonly holesMm: readonly number[] }
  | {
      readonly kind: "openings";
      readonly openings: readonly { readonly diameterMm: number; readonly breatherMm: number | null }[];
    }
  | {
      readonly kind: "filter" | "silencer";
      readonly name: string;
      /** Litres a minute, as its maker says or a flow bench; null: not known. */
      readonly flowLMin: number | null;
      /** Pressure loss, Pa, at which that flow was measured; null: not said. */
      readonly atPa: number | null;
    };

export type DescribedKind = DescribedPart["kind"];

export const DESCRIBED_NAMES: Readonly<Record<DescribedKind, string>> = {
  jet: "Drilled or reamed jet",
  spring: "Slide spring",
  liftHoles: "Lift holes",
  openings: "Airbox openings",
  filter: "Air filter",
  silencer: "Silencer",
};

export interface FromPart {
  readonly setting: string;
  readonly value: number;
}

/**
 * The sheet's figures that follow from a described part: a jet in its numbering (a bore in hundredths of a millimetre), a spring's
 * length and coils, holes and openings as ones of the same area. Nothing for a filter or a silencer. Source: geometry.
 */
export function figuresOf(part: DescribedPart): readonly FromPart[] {
  switch (part.kind) {
    case "jet":
      return [
        {
          setting: part.setting,
          value: round(part.by === "pin gauge" ? 100 * part.measured : part.measured, 1),
        },
      ];
    case "spring":
      return [
        { setting: "springLengthMm", value: part.freeMm },
        ...(part.coils === null ? [] : [{ setting: "springCoils", value: part.coils }]),
      ];
    case "liftHoles":
      return [
        { setting: "liftHoleCount", value: part.holesMm.length },
        ...(part.holesMm.length === 0
          ? []
          : [
              {
                setting: "liftHoleMm",
                value: round(Math.sqrt(squares(part.holesMm) / part.holesMm.length), 3),
              },
            ]),
      ];
    case "openings":
      return [
        {
          setting: "airboxOpeningMm",
          value: round(Math.sqrt(squares(part.openings.map((o) => o.diameterMm))), 2),
        },
      ];
    default:
      return [];
  }
}

/** A described part in words. */
export function partWords(part: DescribedPart): string {
  const mm = (value: number | null) => (value === null ? "not measured" : `${value} mm`);
  switch (part.kind) {
    case "jet": {
      const size = part.by === "pin gauge" ? `${part.measured} mm by pin gauge` : `flows ${part.measured}`;
      return `ours, ${size}${part.number === null ? "" : `, made from a ${part.number}`}`;
    }
    case "spring":
      return `${part.change}: ${mm(part.freeMm)} free, wire ${mm(part.wireMm)}, ${part.coils ?? "coils not counted"}${part.coils === null ? "" : " coils"}, ${part.rateNPerM === null ? "rate not measured" : `${part.rateNPerM} N/m`}`;
    case "liftHoles":
      return part.holesMm.length === 0 ? "none" : part.holesMm.map((hole) => `${hole} mm`).join(", ");
    case "openings":
      return part.openings.length === 0
        ? "none"
        : part.openings
            .map(
              (o) =>
                `${o.diameterMm} mm, ${o.breatherMm === null ? "distance from the breather not measured" : `${o.breatherMm} mm from the breather`}`,
            )
            .join("; ");
    default:
      return `${part.name}: ${flowWords(part.flowLMin, part.atPa)}`;
  }
}

function flowWords(flowLMin: number | null, atPa: number | null): string {
  if (flowLMin === null) return "flow not known";
  return `${flowLMin} l/min${atPa === null ? ", at which loss is not said" : ` at ${atPa} Pa`}`;
}

/** What is wrong with openings near the breather, in a sentence each; `leastMm`: as the model card limits it, null where it does not. */
export function nearBreather(part: DescribedPart, leastMm: number | null): readonly string[] {
  if (part.kind !== "openings" || leastMm === null) return [];
  return part.openings.flatMap(({ diameterMm, breatherMm }) =>
    breatherMm === null
      ? [`How far the ${diameterMm} mm opening is from the breather is not measured: at least ${leastMm} mm.`]
      : breatherMm < leastMm
        ? [`The ${diameterMm} mm opening is ${breatherMm} mm from the breather, nearer than ${leastMm} mm.`]
        : [],
  );
}

const squares = (values: readonly number[]): number => values.reduce((sum, d) => sum + d * d, 0);
const round = (value: number, decimals: number): number => Number(value.toFixed(decimals));
