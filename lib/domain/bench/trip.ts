import { Refusal } from "../refusal";
import { leastLoss } from "../tuning/choose";
import { listCandidates, ON_TARGET } from "../tuning/jetChoice";
import { mainLimitsOver } from "../tuning/jetLimits";
import { heldBack } from "../tuning/jetStep";
import { settingDef } from "../tuning/settings";
import type { JetOnHand } from "../tuning/targetTypes";
import { type AskedCorner, cornersOf, resolvedAt } from "./tripCorners";
import type { TripAnswer, TripInput, TripSize } from "./tripTypes";

/** A drawer jet is taken when its worst loss is at most this far above the best that exists. Source: judgement, as for one air. */
const DRAWER_ALLOWANCE = 0.01;
const STEP = settingDef("mainJet")?.step ?? 2.5;

/**
 * One main jet for a whole trip: for each size the corner of the range where its expected loss (lean counting three times
 * rich) is greatest, and of the sizes the one whose worst corner is least bad; ties richer, the drawer first. Unless full load
 * was measured, not further from the fitted than jetLimits.ts allows in every corner. The mixture screw starts where the richest corner wants it.
 * Throws Refusal when no size meets a corner, OutOfRange for impossible places. Source: minimax of the fuel model, judgement.
 */
export function settingForTrip(input: TripInput): TripAnswer {
  const [found] = input.carburettors;
  const fitted = found?.settings.mainJet?.value;
  if (fitted === undefined)
    throw new Refusal("The main jet fitted is not known.", "Enter its number.", {
      mainJet: "Needed: the trip counts from it.",
    });
  const asked = cornersOf(input, fitted);
  const listed = widened(input.jets, fitted, asked);
  const sizes = sizesOver(asked.map((a) => ({ ...a, question: { ...a.question, jets: listed } })));
  const { low, high, density } = mainLimitsOver(
    asked.map((a) => a.limits),
    fitted,
  );
  const inside = (s: TripSize) => s.size >= low && s.size <= high;
  const wanted = pick(sizes, input.carburettors.length, fitted);
  const allowed = sizes.filter(inside);
  const chosen = inside(wanted) ? wanted : pick(allowed, input.carburettors.length, fitted);
  const at = (list: readonly TripSize[]) => list[leastLoss(list)] ?? null;
  const screws = asked.flatMap((a) => (a.screw ? [a.screw] : []));
  return {
    corners: asked.map(({ question: _, limits, ...corner }) => ({ ...corner, byDensity: limits.density })),
    sizes,
    chosen,
    runnerUp: at(allowed.filter((s) => s !== chosen)),
    drawer: at(sizes.filter((s) => s.free >= input.carburettors.length)),
    carry: carried(asked, chosen),
    held:
      chosen === wanted
        ? null
        : heldBack("mainJet", found?.name ?? "", wanted.size, chosen.size, fitted, density.size),
    screw: screws.reduce<(typeof screws)[number] | null>(
      (best, s) => (!best || s.value > best.value ? s : best),
      null,
    ),
    assumptions: asked[0] ? resolvedAt(input, asked[0].place).r.machine.assumptions : [],
    because: reasons(asked, chosen),
    firmness: "starting point",
  };
}

type Asked = Pick<AskedCorner, "name" | "exact" | "question">;

/** The drawer's main jets; without any, the usual half sizes around what the corners want. */
export function widened(
  jets: readonly JetOnHand[],
  fitted: number,
  asked: readonly Asked[],
): readonly JetOnHand[] {
  if (jets.some((j) => j.setting === "mainJet" && (j.free >= 1 || j.orderable))) return jets;
  const wants = [fitted, ...asked.map((a) => a.exact)];
  const first = Math.floor(Math.min(...wants) / STEP) - 2;
  const last = Math.ceil(Math.max(...wants) / STEP) + 2;
  const convention = asked[0]?.question.convention ?? "bore";
  return Array.from({ length: last - first + 1 }, (_, i) => ({
    setting: "mainJet" as const,
    convention,
    size: (first + i) * STEP,
    free: 0,
    orderable: true,
  }));
}

/** Each size with the corner where its expected loss is greatest, smallest first; sizes of another numbering are left out. */
export function sizesOver(asked: readonly Asked[]): readonly TripSize[] {
  const worst = new Map<number, TripSize>();
  for (const { name, question } of asked)
    for (const c of listCandidates(question)) {
      if (c.convention !== question.convention) continue;
      const before = worst.get(c.size);
      if (!before || c.loss > before.loss)
        worst.set(c.size, {
          size: c.size,
          free: c.free,
          worst: name,
          phiError: c.phiError,
          leanRisk: c.leanRisk,
          loss: c.loss,
        });
    }
  return [...worst.values()].sort((a, b) => a.size - b.size);
}

/**
 * The fitted size where it is on target in every corner; else the size whose worst corner is least bad, and the fitted one or one in
 * the drawer when it loses little more. Throws Refusal for none.
 */
export function pick(sizes: readonly TripSize[], needed: number, fitted: number): TripSize {
  const best = sizes[leastLoss(sizes)];
  if (!best)
    throw new Refusal(
      "No main jet is left to choose from.",
      "Choose another drawer, or leave it blank for the usual sizes.",
    );
  const stays = sizes.find((s) => s.size === fitted && Math.abs(s.phiError) <= ON_TARGET);
  if (stays) return stays;
  const ready = sizes.filter((s) => s.free >= needed || s.size === fitted);
  const near = ready[leastLoss(ready)];
  return near && near.loss <= best.loss + DRAWER_ALLOWANCE ? near : best;
}

/** Further off target than this, another jet is worth carrying. Source: judgement. */
const COMPROMISE = 0.06;

function carried(asked: readonly AskedCorner[], chosen: TripSize) {
  const worst = asked.find((a) => a.name === chosen.worst);
  return worst && Math.abs(chosen.phiError) > COMPROMISE ? { corner: worst.name, exact: worst.exact } : null;
}

function reasons(asked: readonly AskedCorner[], chosen: TripSize) {
  return [
    ...asked.map((a) => ({
      fact: `${a.name}: ${(a.density * 100).toFixed(1)} % of the oxygen of here`,
      from: "ISO 2533, CIPM-2007",
      effect: `exactly ${a.exact.toFixed(1)}`,
    })),
    {
      fact: `Worst corner of ${chosen.size}: ${chosen.worst}`,
      from: "least bad worst corner, lean counting three times rich",
      effect: `${(chosen.phiError * 100).toFixed(1)} % ${chosen.phiError < 0 ? "lean" : "rich"}`,
    },
  ];
}
