import type { Observation } from "./rideTypes";
import type { SettingChange } from "./settingChange";
import { settingDef } from "./settings";
import { pullOf } from "./symptomTable";

/** What a bike may be complained of: where in the throttle, and doing what. An option of a package may say which it answers. */
export const COMPLAINTS = [
  { key: "starting", name: "starting" },
  { key: "idle", name: "idling" },
  { key: "small", name: "small throttle, up to a quarter" },
  { key: "middle", name: "half throttle" },
  { key: "large", name: "three quarters to full" },
  { key: "snap", name: "snapping the throttle open" },
  { key: "slowing", name: "slowing down on a closed throttle" },
] as const;
export type Complaint = (typeof COMPLAINTS)[number]["key"];
export const COMPLAINT_KEYS = COMPLAINTS.map(({ key }) => key) as [Complaint, ...Complaint[]];

const STEADY = {
  closed: "idle",
  eighth: "small",
  quarter: "small",
  half: "middle",
  threeQuarter: "large",
  full: "large",
} as const;
const OTHER = { snap: "snap", decelerating: "slowing", idle: "idle", starting: "starting" } as const;

/** A setting answers what it decides by this share. Source: judgement. */
const DECIDES = 0.5;

/** Where an observation belongs. */
export function complaintOf({ throttle, condition }: Observation): Complaint {
  return condition === "steady" ? STEADY[throttle] : OTHER[condition];
}

/**
 * The observations of trouble that an option answers: those of a kind that it names, and those that a setting it changes decides by
 * half or more. Sources: the package's author; symptomTable.ts.
 */
export function answeredBy(
  option: { readonly changes: readonly SettingChange[]; readonly answers?: readonly Complaint[] },
  observations: readonly Observation[],
): readonly Observation[] {
  const settings = option.changes.flatMap(({ setting }) => settingDef(setting)?.key ?? []);
  return observations.filter(
    (one) =>
      one.sign !== "good" &&
      (option.answers?.includes(complaintOf(one)) ||
        settings.some((setting) => pullOf(setting, one) >= DECIDES)),
  );
}
