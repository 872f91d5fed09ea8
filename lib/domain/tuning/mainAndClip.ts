import type { SettingKey } from "./settings";
import { bestClip, type Stations } from "./solve";
import type { Resolved } from "./station";
import type { JetChoice, NeedleShape, SettingValues } from "./targetTypes";

/** Setting values while they are being solved. */
export type Writable = Partial<Record<SettingKey, number>>;

/** Main and clip in turn, at most four rounds. The clip goes at most one groove leaner (up) without a measurement. */
export function mainAndClip(
  r: Resolved,
  stations: Stations,
  values: Writable,
  needle: NeedleShape,
  asFound: SettingValues,
  computed: ReadonlySet<SettingKey>,
  choose: (key: "mainJet") => JetChoice | null,
): JetChoice | null {
  const known = asFound.mainJet !== undefined;
  let choice: JetChoice | null = null;
  for (let round = 0; round < 4; round++) {
    const before = `${values.mainJet} ${values.clipPosition}`;
    if (known) choice = choose("mainJet");
    if (computed.has("clipPosition")) {
      const { clip } = bestClip(r, stations, values, needle, 0.03);
      const leanest = r.error.taper.samples > 0 ? 1 : (asFound.clipPosition ?? clip) - 1;
      values.clipPosition = Math.max(clip, leanest);
    }
    if (before === `${values.mainJet} ${values.clipPosition}`) break;
  }
  return choice;
}
