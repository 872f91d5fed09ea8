import type { SettingKey } from "./settings";
import { bestClip, type Stations } from "./solve";
import type { Resolved } from "./station";
import type { JetChoice, NeedleShape, SettingValues } from "./targetTypes";

/** Setting values while they are being solved. */
export type Writable = Partial<Record<SettingKey, number>>;

/** Main and clip in turn, at most four rounds. A clip that nobody recorded is not computed; without a measurement it goes at most one groove either way. */
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
  const groove = values.clipPosition;
  let choice: JetChoice | null = null;
  for (let round = 0; round < 4; round++) {
    const before = `${values.mainJet} ${values.clipPosition}`;
    if (known) choice = choose("mainJet");
    if (computed.has("clipPosition") && groove !== undefined) {
      const { clip } = bestClip(r, stations, values, needle, 0.03);
      values.clipPosition = r.error.taper.measured ? clip : Math.min(groove + 1, Math.max(groove - 1, clip));
    }
    if (before === `${values.mainJet} ${values.clipPosition}`) break;
  }
  return choice;
}
