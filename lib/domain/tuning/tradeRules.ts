import { comparedNeedles } from "./needlePoints";
import { springRatio } from "./ratios";
import { slideRiseRatio } from "./slide";
import type { CarburettorTarget, SettingValues, TargetInput, Warning } from "./targetTypes";

/** True when a setup breathes more freely than another: a larger opening, no snorkel, or less weld in the header. */
export function freerBreathing(from: SettingValues, to: SettingValues): boolean {
  return (
    (to.airboxOpeningMm ?? 0) > (from.airboxOpeningMm ?? 0) ||
    (to.snorkelFitted === 0 && from.snorkelFitted !== 0) ||
    (to.headerWeldMm ?? 0) < (from.headerWeldMm ?? to.headerWeldMm ?? 0)
  );
}

const PRACTICE = "common practice";
const warn = (rule: string, message: string, remedy: string, source = PRACTICE): Warning => ({
  rule,
  message,
  remedy,
  source,
});

/** Rules of the trade that one carburettor's target offends, and reminders that follow from it. Source: common practice. */
export function tradeWarnings(input: TargetInput, target: CarburettorTarget): readonly Warning[] {
  const a = target.before.settings;
  const b = target.after.settings;
  return [...breathingRules(input, target), ...slideRules(a, b), ...leanRules(target, a, b)];
}

function breathingRules(input: TargetInput, target: CarburettorTarget): Warning[] {
  const a = target.before.settings;
  const b = target.after.settings;
  const found: Warning[] = [];
  const freer = freerBreathing(a, b);
  const bigger = a.mainJet !== undefined && b.mainJet !== undefined && b.mainJet > a.mainJet;
  const cut = (b.airboxOpeningMm ?? 0) > (a.airboxOpeningMm ?? 0);
  if (bigger && !freer && input.changes.some((c) => c.setting === "mainJet" && c.change !== "computed"))
    found.push(
      warn(
        "main without airbox",
        "A bigger main jet is fitted and the airbox stays as it is.",
        "Open the airbox, or keep the main jet.",
      ),
    );
  const slim = !bigger && isSlimmer(target);
  if (freer && !bigger && !slim)
    found.push(
      warn(
        "airbox without main",
        "Breathing gets freer and the main jet gets no bigger.",
        "Let the main jet be computed, or measure lambda at full load.",
      ),
    );
  if (slim && cut)
    found.push(
      warn(
        "needle with cut opening",
        "A needle slimmer than the delivered one wants only the snorkel out with this main jet.",
        "Do not cut the airbox, or fit a larger main jet.",
      ),
    );
  if (cut)
    found.push(
      warn("opening place", "The airbox is cut.", "Keep the cut away from the carburettor breather."),
    );
  if (freer)
    found.push(warn("idle speed", "Idle rises after freer running.", "Set the idle speed down again."));
  if (b.headerWeldMm !== undefined && b.headerWeldMm < 1)
    found.push(
      warn(
        "header weld",
        `${b.headerWeldMm} mm of header weld would stay.`,
        "Leave about 1 mm, or add weld outside first.",
      ),
    );
  return found;
}

/** The fitted needle is slimmer in its jet than the delivered one (else than the one found), and nowhere thicker. Source: geometry. */
function isSlimmer({ before, after }: CarburettorTarget): boolean {
  const delivered = after.card.needle?.value ?? before.needle?.value;
  const fitted = after.needle?.value;
  return !!delivered && !!fitted && comparedNeedles(fitted, delivered) === "slimmer";
}

function slideRules(a: SettingValues, b: SettingValues): Warning[] {
  const holes = a.liftHoleCount && a.liftHoleMm && b.liftHoleCount && b.liftHoleMm;
  const area = holes
    ? 1 /
      slideRiseRatio(
        { count: a.liftHoleCount ?? 0, holeMm: a.liftHoleMm ?? 0 },
        { count: b.liftHoleCount ?? 0, holeMm: b.liftHoleMm ?? 0 },
      )
    : 1;
  const cut = springRatio(a, b)?.value ?? 1;
  return area * cut > 3.5
    ? [
        warn(
          "slide too quick",
          `Lift holes x ${area.toFixed(2)} in area with a spring x ${cut.toFixed(2)} in rate: the slide may flutter or give a lean snap.`,
          "Take the holes or the spring in smaller steps.",
        ),
      ]
    : [];
}

function leanRules(target: CarburettorTarget, a: SettingValues, b: SettingValues): Warning[] {
  const found: Warning[] = [];
  const steps = a.mainJet !== undefined && b.mainJet !== undefined ? (a.mainJet - b.mainJet) / 2.5 : 0;
  const explicit = target.settings.some(
    (s) => s.key === "mainJet" && s.because.some((r) => r.from === "package"),
  );
  if (explicit && steps > 1)
    found.push(
      warn(
        "leaner by hand",
        `The package sets a main jet ${steps} half sizes leaner.`,
        "Measure lambda at full load first: lean at full load destroys engines.",
        "judgement",
      ),
    );
  if (target.mainJet && target.mainJet.chosen.phiError < -0.03)
    found.push(
      warn(
        "lean jet",
        `Main jet ${target.mainJet.chosen.size} is ${(-100 * target.mainJet.chosen.phiError).toFixed(1)} % lean of target.`,
        `${target.mainJet.best.size} is the best that can be had.`,
        "fuel model",
      ),
    );
  return found;
}
