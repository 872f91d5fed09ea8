import { MAKES_NEEDLE } from "../packages/needleOption";
import { DIAPHRAGM_BY_LIGHT } from "./diaphragmByLight";
import { FLOAT_HEIGHT_BY_GAUGE } from "./floatHeightByGauge";
import { FLOAT_HEIGHT_BY_TUBE } from "./floatHeightByTube";
import { HEADER_WELD } from "./headerWeld";
import { HOLE_BY_DRILL_SHANK } from "./holeByDrillShank";
import { MIXTURE_SCREW_COUNT } from "./mixtureScrewCount";
import { NEEDLE_AT_STATIONS } from "./needleAtStations";
import { NEEDLE_JET_BORE } from "./needleJetBore";
import { OPENING_AND_BREATHER } from "./openingAndBreather";
import type { Procedure } from "./procedure";
import { SLIDE_AND_GUIDE_PLAY } from "./slideAndGuidePlay";
import { SPRING_LENGTH_AND_RATE } from "./springLengthAndRate";
import { VACUUM_BALANCE } from "./vacuumBalance";
import { VALVE_CLEARANCE } from "./valveClearance";

/** Every measuring procedure, in the order in which a carburettor is gone through. */
export const PROCEDURES: readonly Procedure[] = [
  VALVE_CLEARANCE,
  MIXTURE_SCREW_COUNT,
  FLOAT_HEIGHT_BY_GAUGE,
  FLOAT_HEIGHT_BY_TUBE,
  NEEDLE_AT_STATIONS,
  NEEDLE_JET_BORE,
  DIAPHRAGM_BY_LIGHT,
  SLIDE_AND_GUIDE_PLAY,
  SPRING_LENGTH_AND_RATE,
  HOLE_BY_DRILL_SHANK,
  OPENING_AND_BREATHER,
  HEADER_WELD,
  VACUUM_BALANCE,
];

/** The procedure with an id; undefined where there is none. */
export function procedure(id: string): Procedure | undefined {
  return PROCEDURES.find((one) => one.id === id);
}

/** The procedures that read any of these measurables, each once, in their own order. */
export function proceduresFor(measures: readonly string[]): readonly Procedure[] {
  return PROCEDURES.filter((one) => one.measures.some((key) => measures.includes(key)));
}

/** A card's step, as far as its measuring goes. */
export interface MeasuringStep {
  readonly makes: readonly string[];
  readonly holdPoints: readonly { readonly kind: string; readonly measures: string }[];
}

/** The procedures of a step: of what its hold points read, and of what it makes. */
export function proceduresOfStep(step: MeasuringStep): readonly Procedure[] {
  const read = step.holdPoints.filter((hold) => hold.kind === "reading").map((hold) => hold.measures);
  return proceduresFor([...read, ...step.makes.map((key) => (key === MAKES_NEEDLE ? "needleMm" : key))]);
}

/** The procedures of all steps of a card, each once. */
export function proceduresOfCard(steps: readonly MeasuringStep[]): readonly Procedure[] {
  const asked = new Set(steps.flatMap(proceduresOfStep));
  return PROCEDURES.filter((one) => asked.has(one));
}
