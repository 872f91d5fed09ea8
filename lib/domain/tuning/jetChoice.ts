import type { Reason } from "../reason";
import { expectedLoss, LEAN_COST_FULL, LEAN_COST_PART, leastLoss, probabilityLeaner } from "./choose";
import { jetNote } from "./jetNote";
import { jetAreaMm2, jetSizeForArea } from "./jets";
import { targetLambda } from "./regions";
import type { JetCandidate, JetChoice, JetConvention, JetOnHand } from "./targetTypes";

export interface JetQuestion {
  readonly setting: "mainJet" | "pilotJet";
  readonly convention: JetConvention;
  readonly exact: number;
  /** The jet fitted now; null when unknown. It needs nothing from the drawer. */
  readonly fitted: number | null;
  readonly jets: readonly JetOnHand[];
  /** Jets wanted: the drawer must hold this many for a size to count as there. */
  readonly needed: number;
  /** Log richness with a size in `convention`. */
  readonly error: (size: number) => number;
  /** Sigma of that error for choosing, and of lambda for the risk of running lean. */
  readonly sigma: number;
  readonly lambdaSigma: number;
  readonly because: readonly Reason[];
  /** Smallest size allowed, in `convention`; absent: any. */
  readonly floor?: number;
  /** Greatest size allowed, in `convention`; absent: any. */
  readonly ceiling?: number;
  /** A size that is settled already (kept, or set by a package): it is chosen, and `best` tells what would be. */
  readonly given?: number;
}

/** A drawer jet is taken when its loss is at most this far (log richness) above the best that exists. Source: judgement. */
const DRAWER_ALLOWANCE = 0.01;
/** A fitted jet this close (log richness) to the target stays, however unsure the rest is: nothing asks for another. Source: judgement. */
export const ON_TARGET = 0.005;
const USUAL_STEP = 2.5;

/**
 * Picks a jet from sizes that exist: least expected loss (lean counts three times rich at full load, 1.5 times at idle),
 * ties richer; the fitted jet and the drawer first, then what can be ordered. Without any listed size it picks from
 * usual half sizes and says so. Source: decision rule, judgement.
 */
export function chooseJet(q: JetQuestion): JetChoice {
  const candidates = listCandidates(q);
  const at = (list: readonly JetCandidate[]) => list[leastLoss(list)] ?? null;
  const best = at(candidates) ?? judge(q, usual(q.exact), q.convention, 0, false);
  const isFitted = (c: JetCandidate) => c.size === q.fitted && c.convention === q.convention;
  const drawer = at(candidates.filter((c) => c.free >= q.needed));
  const ready = at(candidates.filter((c) => c.free >= q.needed || isFitted(c)));
  const given = q.given === undefined ? null : settled(q, q.given, candidates);
  const stays = candidates.find((c) => isFitted(c) && Math.abs(c.phiError) <= ON_TARGET);
  const chosen = given ?? stays ?? (ready && ready.loss <= best.loss + DRAWER_ALLOWANCE ? ready : best);
  const runnerUp = at(candidates.filter((c) => c !== chosen));
  return {
    convention: chosen.convention,
    exact: q.exact,
    chosen,
    runnerUp,
    nearestInDrawer: drawer,
    best,
    inDrawer: chosen.free >= q.needed || isFitted(chosen),
    note: jetNote(q, chosen, isFitted(chosen), drawer),
    because: q.because,
    firmness: "starting point",
  };
}

/** Sizes to choose from, each judged once, none below the floor or above the ceiling; the fitted size is always among them. */
export function listCandidates(q: JetQuestion): readonly JetCandidate[] {
  const floor = q.floor ?? 0;
  const ceiling = q.ceiling ?? Number.POSITIVE_INFINITY;
  const listed = q.jets.filter((j) => j.setting === q.setting && (j.free >= 1 || j.orderable));
  const found = listed
    .filter((j) => {
      const size = inNumbering(q, j.size, j.convention);
      return size >= floor && size <= ceiling;
    })
    .map((j) => judge(q, j.size, j.convention, Math.floor(j.free), j.orderable));
  const middle = usual(Math.min(ceiling, Math.max(q.exact, floor)));
  if (listed.length === 0)
    for (const size of [-1, 0, 1, 2].map((k) => middle + k * USUAL_STEP))
      if (size >= Math.max(floor, 1) && size <= ceiling) found.push(judge(q, size, q.convention, 0, false));
  if (q.fitted !== null && !found.some((c) => c.size === q.fitted && c.convention === q.convention))
    found.push(judge(q, q.fitted, q.convention, 0, false));
  return found.sort((a, b) => a.size - b.size);
}

const usual = (size: number) => Math.max(USUAL_STEP, Math.round(size / USUAL_STEP) * USUAL_STEP);

function settled(q: JetQuestion, size: number, candidates: readonly JetCandidate[]): JetCandidate {
  const listed = candidates.find((c) => c.size === size && c.convention === q.convention);
  return listed ?? judge(q, size, q.convention, 0, false);
}

function inNumbering(q: JetQuestion, size: number, convention: JetConvention): number {
  return convention === q.convention ? size : jetSizeForArea(jetAreaMm2(size, convention), q.convention);
}

function judge(
  q: JetQuestion,
  size: number,
  convention: JetConvention,
  free: number,
  orderable: boolean,
): JetCandidate {
  const same = convention === q.convention;
  const log = q.error(inNumbering(q, size, convention));
  const full = q.setting === "mainJet";
  const sigma = same ? q.sigma : Math.hypot(q.sigma, 0.04);
  const lambda = targetLambda(full ? 1 : 0.02) * Math.exp(-log);
  return {
    size,
    convention,
    phiError: Math.expm1(log),
    leanRisk: full ? probabilityLeaner(lambda, Math.hypot(q.lambdaSigma, same ? 0 : 0.04), 0.92) : 0,
    loss: expectedLoss(log, sigma, full ? LEAN_COST_FULL : LEAN_COST_PART),
    free,
    orderable,
  };
}
