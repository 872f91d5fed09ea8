import { within } from "../refusal";
import { DESCRIBED_NAMES, type DescribedPart } from "./describedParts";
import type { PartTarget } from "./partChange";
import type { StandIns } from "./standIns";
import type { Warning } from "./targetTypes";

/** How much air a filter or a silencer passes at which pressure loss. */
export interface FlowFigure {
  readonly flowLMin: number;
  readonly atPa: number;
}

/** What air and exhaust pass through, where somebody knows how freely; one for all carburettors. */
export interface Flows {
  readonly filter?: FlowFigure;
  readonly silencer?: FlowFigure;
}

type Kind = keyof Flows;
const KINDS: readonly Kind[] = ["filter", "silencer"];

/** Air of a flow bench, kg/m3: 20 °C, 1013 hPa. Source: judgement; only ratios of two figures count. */
const BENCH_AIR = 1.2;
/**
 * What a flow figure adds to the uncertainty, per unit of relative change: the loss of a filter grows between in proportion to the
 * flow (Darcy) and as its square (Forchheimer), and it is taken as the square. Source: judgement.
 */
const FLOW_LAW = 0.15;

/** The flow figures of described parts: those that name the pressure loss they were measured at. A flow alone tells nothing. */
export function flowsOf(parts: readonly DescribedPart[] | undefined): Flows | undefined {
  const figures = (parts ?? []).flatMap((part) =>
    (part.kind === "filter" || part.kind === "silencer") && part.flowLMin !== null && part.atPa !== null
      ? [[part.kind, { flowLMin: part.flowLMin, atPa: part.atPa }] as const]
      : [],
  );
  return figures.length === 0 ? undefined : Object.fromEntries(figures);
}

/** What flows once parts were changed: of a kind that was changed only the new part's own figure. */
export function flowsAfter(before: Flows | undefined, parts: readonly PartTarget[]): Flows | undefined {
  const changed = parts.map((part) => part.after);
  const kept = Object.entries(before ?? {}).filter(([kind]) => changed.every((part) => part.kind !== kind));
  const flows: Flows = { ...Object.fromEntries(kept), ...flowsOf(changed) };
  return Object.keys(flows).length === 0 ? undefined : flows;
}

/** The opening (m2) that loses as much at that flow: Q sqrt(rho / 2 dp). Source: Bernoulli. Throws OutOfRange. */
export function flowAreaM2({ flowLMin, atPa }: FlowFigure): number {
  const flowM3S = within("flow", flowLMin, 50, 100_000, "l/min") / 60_000;
  return flowM3S * Math.sqrt(BENCH_AIR / (2 * within("pressure loss", atPa, 10, 50_000, "Pa")));
}

/** Openings that stand for filter and silencer, m2; undefined where they are not computed with. */
export interface FlowAreas {
  readonly filterM2?: number;
  readonly silencerM2?: number;
}

/**
 * The openings of what is fitted and of the reference: of a kind only where both are known, since a change between a known and an
 * unknown figure is no change that anybody knows. Each is noted, with the law that is assumed.
 */
export function flowAreas(
  now: Flows | undefined,
  reference: Flows | undefined,
  s: StandIns,
): { readonly now: FlowAreas; readonly reference: FlowAreas } {
  const known = KINDS.flatMap((kind) => {
    const [is, was] = [now?.[kind], reference?.[kind]];
    return is && was ? [{ kind, is, was }] : [];
  });
  for (const { kind, is, was } of known)
    s.choice(
      undefined,
      `${DESCRIBED_NAMES[kind]}'s loss grows as the square of the flow`,
      () => is,
      is.flowLMin === was.flowLMin && is.atPa === was.atPa ? 0 : FLOW_LAW,
      `${is.flowLMin} l/min at ${is.atPa} Pa`,
    );
  const areas = (pick: "is" | "was"): FlowAreas =>
    Object.fromEntries(known.map((one) => [`${one.kind}M2`, flowAreaM2(one[pick])]));
  return { now: areas("is"), reference: areas("was") };
}

/** Says which exchanged filters and silencers are not computed with, and what would tell. */
export function uncountedFlows(parts: readonly PartTarget[]): readonly Warning[] {
  return parts.flatMap(({ before, after }): Warning[] => {
    const { kind } = after;
    if (kind !== "filter" && kind !== "silencer") return [];
    if (flowsOf([after]) && before && flowsOf([before])) return [];
    const name = DESCRIBED_NAMES[kind].toLowerCase();
    return [
      {
        rule: "flow not known",
        message: `The change of the ${name} is not computed with: how freely ${before ? "both" : "the one before"} pass${before ? "" : "es"} air is not known.`,
        remedy: `Describe the ${name} before and after with its flow and the pressure loss that was measured at; else trust the ride.`,
        source: "model",
      },
    ];
  });
}
