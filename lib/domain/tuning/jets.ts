import { Refusal, within } from "../refusal";
import type { JetConvention } from "./targetTypes";

export const APPROXIMATE = "approximate: the two numberings measure different things";

/**
 * Metering area (mm2) of a jet. "bore": size in 1/100 mm, pi/4 d^2. "flow": size proportional to flow, scaled so that
 * flow 100 has the area of bore 100. Sources: identity; the flow scale is a judgement, good for ratios only.
 */
export function jetAreaMm2(size: number, convention: JetConvention): number {
  const s = within("jet size", size, 1, 600);
  return convention === "bore" ? (Math.PI / 4) * (s / 100) ** 2 : (Math.PI / 4) * (s / 100);
}

/** The size that has this area (mm2): inverse of jetAreaMm2. */
export function jetSizeForArea(areaMm2: number, convention: JetConvention): number {
  const quarter = within("jet area", areaMm2, 1e-6, 40, "mm2") / (Math.PI / 4);
  return 100 * (convention === "bore" ? Math.sqrt(quarter) : quarter);
}

export interface JetComparison {
  /** Area of `to` over area of `from`. */
  readonly areaRatio: number;
  /** "" within one convention, else what to know. */
  readonly note: string;
}

/** Compares two jets by area; across conventions the answer says that it is approximate. Source: identity. */
export function compareJets(
  from: { readonly size: number; readonly convention: JetConvention },
  to: { readonly size: number; readonly convention: JetConvention },
): JetComparison {
  return {
    areaRatio: jetAreaMm2(to.size, to.convention) / jetAreaMm2(from.size, from.convention),
    note: from.convention === to.convention ? "" : APPROXIMATE,
  };
}

/** Effective area of orifices in series: 1/A^2 = sum of 1/Ai^2, any unit, all positive. Source: continuity, identity. */
export function seriesArea(...areas: readonly number[]): number {
  if (areas.length === 0)
    throw new Refusal("There is no orifice to put in series.", "Enter at least one area.");
  let sum = 0;
  for (const a of areas) sum += 1 / within("orifice area", a, 1e-12, 1e12) ** 2;
  return 1 / Math.sqrt(sum);
}
