import type { Reason } from "../reason";
import { expectedLoss, LEAN_COST_PART, leastLoss } from "./choose";
import { bestClip, type Stations } from "./solve";
import { logRichness, type Resolved } from "./station";
import type { KnownSettings, NeedleShape, SettingValues } from "./targetTypes";

/** A shim that can be had, mm thick. */
export interface ShimOnHand {
  readonly sizeMm: number;
  /** Whole shims free. */
  readonly free: number;
}

/** Where the needle is to sit: by its clip, or by shims where it has no grooves. Differences in mm, up counts positive. */
export interface NeedlePosition {
  readonly by: "clip" | "shims";
  readonly differenceMm: number;
  /** Groove, or mm of shims below the shoulder; null where as found is not known. */
  readonly from: number | null;
  /** Null where as found is not known: then the difference is the answer. */
  readonly to: number | null;
  /** Thicknesses to add (positive) or take out (negative), mm; empty for a clip. */
  readonly shims: readonly number[];
  readonly because: readonly Reason[];
  /** What to look at first; "" where nothing is unknown. */
  readonly question: string;
}

/** Without a measurement the needle moves at most this far, mm. Source: judgement, after one groove. */
const REACH_MM = 1;
/** Shims that are made where the drawer has none, mm. Source: common practice. */
const USUAL_SHIMS: readonly ShimOnHand[] = [0.25, 0.5].map((sizeMm) => ({ sizeMm, free: 0 }));
const SIGMA = 0.03;
/** So near to the best, the needle stays (as for the clip). */
const TIE = 0.002;

interface Task {
  readonly r: Resolved;
  readonly stations: Stations;
  readonly values: SettingValues;
  readonly needle: NeedleShape;
  readonly found: KnownSettings;
  readonly shims: readonly ShimOnHand[];
}

/** Needle position of least expected loss for what is fitted now; null where nothing tells how the needle is held. Source: solve.ts. */
export function bestPosition(t: Task): NeedlePosition | null {
  if (t.needle.clips === 0) return byShims(t);
  const { clipPosition } = t.found;
  if (clipPosition === undefined) return null;
  return byClip(t, clipPosition.value, clipPosition.how !== "assumed");
}

function byClip({ r, stations, values, needle }: Task, groove: number, known: boolean): NeedlePosition {
  const { clip } = bestClip(r, stations, { ...values, clipPosition: groove }, needle, SIGMA);
  const to = r.error.taper.measured ? clip : Math.min(groove + 1, Math.max(groove - 1, clip));
  const differenceMm = (to - groove) * needle.clipStepMm;
  const open = !known || needle.groovesAssumed === true;
  return {
    by: "clip",
    differenceMm,
    from: open ? null : groove,
    to: open ? null : to,
    shims: [],
    because: because(differenceMm),
    question:
      open && to !== groove
        ? `Look which groove the clip is in, and count the grooves: the needle is to go ${differenceMm > 0 ? "up" : "down"} by ${Math.abs(to - groove)} from there.`
        : "",
  };
}

function byShims(t: Task): NeedlePosition {
  const was = t.found.needleShimBelowMm;
  const from = was === undefined || was.how === "assumed" ? null : was.value;
  const stacks = stacksOf(t.shims.some((s) => s.free > 0) ? t.shims : USUAL_SHIMS).filter(
    ({ mm }) => from === null || mm >= 0 || -mm <= from + 1e-9,
  );
  const options = stacks.map((stack) => {
    const errors = t.stations.clipPosition.map((x) =>
      logRichness(t.r, x, { settings: t.values, needle: t.needle, raisedMm: stack.mm }),
    );
    const loss = errors.reduce((sum, e) => sum + expectedLoss(e, SIGMA, LEAN_COST_PART), 0) / errors.length;
    return { ...stack, loss, phiError: errors.reduce((sum, e) => sum + e, 0) / errors.length };
  });
  const best = options[leastLoss(options)];
  const stay = options.find((o) => o.mm === 0);
  const chosen = stay && best && stay.loss > best.loss + TIE ? best : stay;
  const differenceMm = chosen?.mm ?? 0;
  const way = differenceMm > 0 ? "raise" : "lower";
  return {
    by: "shims",
    differenceMm,
    from,
    to: from === null ? null : Number((from + differenceMm).toFixed(3)),
    shims: chosen?.shims ?? [],
    because: because(differenceMm),
    question:
      from === null && differenceMm !== 0
        ? `Count and measure the shims below the needle's shoulder: ${way} it by ${Math.abs(differenceMm).toFixed(2)} mm from how it is found.`
        : "",
  };
}

/** Differences that shims can make, none first: one or two of a size that the drawer has, put in or taken out. */
function stacksOf(shims: readonly ShimOnHand[]): { mm: number; shims: readonly number[] }[] {
  const usual = shims.every((s) => s.free === 0);
  const up = shims.flatMap(({ sizeMm, free }) =>
    [1, 2, 3, 4].filter((n) => usual || n <= free).map((n) => Array.from({ length: n }, () => sizeMm)),
  );
  const stacks = [[], ...up, ...up.map((stack) => stack.map((size) => -size))].map((stack) => ({
    mm: Number(stack.reduce((sum, size) => sum + size, 0).toFixed(3)),
    shims: stack,
  }));
  return [...new Map(stacks.map((stack) => [stack.mm, stack])).values()]
    .filter(({ mm }) => Math.abs(mm) <= REACH_MM)
    .sort((a, b) => a.mm - b.mm);
}

function because(differenceMm: number): Reason[] {
  return [
    {
      fact: differenceMm === 0 ? "Half throttle stays on target" : "Half throttle is nearest target here",
      from: "fuel model",
      effect: differenceMm === 0 ? "the needle stays" : `needle ${differenceMm > 0 ? "up" : "down"}`,
    },
  ];
}
