import { jetAreaMm2, jetSizeForArea } from "./jets";
import type { JetConvention } from "./targetTypes";

/** A jet that is wanted, with what its number means. */
export interface JetWanted {
  readonly family: string;
  readonly size: number;
  readonly convention: JetConvention;
}

/** A jet of some drawer. */
export interface JetInDrawer extends JetWanted {
  readonly partId: number;
  readonly code: string;
  /** Free, in thousandths. */
  readonly freeMilli: number;
}

/** A jet of another drawer that goes into the same thread: never the same jet, only about the same flow. */
export interface FlowsLike extends JetInDrawer {
  /** The number in the wanted jet's drawer that flows as it does, and the ends within which that is so. */
  readonly equivalent: number;
  readonly low: number;
  readonly high: number;
  /** True where the two drawers number their jets otherwise. */
  readonly across: boolean;
}

/** Sigma of the logarithm of flow between two drawers, numbered alike (another make's jet at one number) and not. Source: judgement. */
const SIGMA = 0.02;
const SIGMA_ACROSS = 0.04;
/** As the bands of the mixture are told: 87 % of a normal spread. */
const BAND = 1.5;
/** Not offered beyond this share of flow: another jet would be nearer. Source: judgement. */
const FURTHEST = Math.log(1.1);
const MOST = 3;

/** A thread as it is compared: "M5 x 0,75" and "m5×0.75" are one. Empty where none is said. */
export const foldedThread = (thread: string): string =>
  thread.toLowerCase().replaceAll("×", "x").replaceAll(",", ".").replace(/\s+/g, "");

/**
 * The jets of other drawers with the same thread that flow most like a wanted one, enough of them free, the nearest first, three at most.
 * `threads` gives the thread of each drawer: none where its own or theirs is not known. Flow goes as metering area, so the equivalent is
 * the number of the same area; how far the flows of two drawers differ at one area is judgement, told as the ends of a band of 1.5 sigma.
 * Sizes as marked, quantities in thousandths. Source: jets.ts; judgement.
 */
export function sameThread(
  wanted: JetWanted,
  neededMilli: number,
  jets: readonly JetInDrawer[],
  threads: ReadonlyMap<string, string>,
): FlowsLike[] {
  const threadOf = (family: string) => foldedThread(threads.get(family) ?? "");
  const thread = threadOf(wanted.family);
  if (thread === "") return [];
  const area = jetAreaMm2(wanted.size, wanted.convention);
  const off = (jet: JetWanted) => Math.abs(Math.log(jetAreaMm2(jet.size, jet.convention) / area));
  return jets
    .filter((jet) => jet.family !== wanted.family && threadOf(jet.family) === thread)
    .filter((jet) => jet.freeMilli >= Math.max(1, neededMilli) && off(jet) <= FURTHEST)
    .sort((a, b) => off(a) - off(b) || a.partId - b.partId)
    .slice(0, MOST)
    .map((jet) => ({ ...jet, ...equivalentOf(jet, wanted.convention) }));
}

function equivalentOf(jet: JetInDrawer, convention: JetConvention) {
  const across = jet.convention !== convention;
  const spread = BAND * (across ? SIGMA_ACROSS : SIGMA);
  const own = jetAreaMm2(jet.size, jet.convention);
  const at = (log: number) => jetSizeForArea(own * Math.exp(log), convention);
  return { equivalent: at(0), low: at(-spread), high: at(spread), across };
}
