import { bestPosition, type NeedlePosition, type ShimOnHand } from "./needlePosition";
import type { SettingKey } from "./settings";
import type { Stations } from "./solve";
import type { Resolved } from "./station";
import type { JetChoice, KnownSettings, NeedleShape, SettingValues } from "./targetTypes";

/** Setting values while they are being solved. */
export type Writable = Partial<Record<SettingKey, number>>;

export interface MainAndNeedle {
  readonly mainJet: JetChoice | null;
  readonly position: NeedlePosition | null;
  /** Raised by this against the reference, where only the difference is known, mm. */
  readonly raisedMm: number;
}

export interface NeedleTask {
  readonly r: Resolved;
  readonly stations: Stations;
  readonly values: Writable;
  readonly needle: NeedleShape;
  readonly found: KnownSettings;
  /** The groove that a new needle starts from; one without grooves is held by shims, which do not ask for it. */
  readonly groove: number | undefined;
  readonly shims: readonly ShimOnHand[];
  /** Whether the package wants the needle's height computed. */
  readonly moves: boolean;
}

/**
 * Main jet and needle height in turn, at most four rounds (they are in series). By clip where the needle has grooves, by shims
 * where it has none; where as found is not known the answer is a difference. Without a measurement it goes at most one groove, or a
 * millimetre of shims, either way.
 */
export function mainAndNeedle(
  t: NeedleTask,
  mainKnown: boolean,
  choose: (raisedMm: number) => JetChoice | null,
): MainAndNeedle {
  const { values } = t;
  const before: SettingValues = { ...values };
  let [mainJet, position, raisedMm] = [null as JetChoice | null, null as NeedlePosition | null, 0];
  for (let round = 0; round < 4; round++) {
    const was = `${values.mainJet} ${position?.differenceMm}`;
    if (mainKnown) mainJet = choose(raisedMm);
    if (t.moves) {
      const found = withGroove(t);
      const { mainJet: _, ...start } = before;
      const jet = values.mainJet === undefined ? {} : { mainJet: values.mainJet };
      position = bestPosition({ ...t, values: { ...start, ...jet }, found });
      raisedMm = take(values, position);
    }
    if (was === `${values.mainJet} ${position?.differenceMm}`) break;
  }
  return { mainJet, position, raisedMm };
}

/** A new needle starts from its own groove, which is known. */
function withGroove({ found, groove }: NeedleTask): KnownSettings {
  return groove === undefined ? found : { ...found, clipPosition: { value: groove, how: "read" } };
}

/** Puts a position into the values where it is a number; answers the difference where it is not. */
function take(values: Writable, position: NeedlePosition | null): number {
  if (position === null) return 0;
  if (position.to === null) return position.differenceMm;
  values[position.by === "clip" ? "clipPosition" : "needleShimBelowMm"] = position.to;
  return 0;
}
