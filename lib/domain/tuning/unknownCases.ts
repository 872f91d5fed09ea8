import { deliveredSpring, sameLength } from "./springCut";
import type { FuelState, SettingValues } from "./targetTypes";

/** A state in which an unknown fact is as it may be, and what would settle it. */
export interface StateCase {
  readonly name: string;
  readonly settle: string;
  readonly state: FuelState;
  /** True where the slide moves otherwise; else the case differs in what is metered alone. */
  readonly movesSlide?: boolean;
}

/** How far a needle that nobody measured may sit from where it is taken to be, mm. Source: judgement. */
const SEAT_MM = 0.5;

/**
 * What the fuel curve's change depends on and nobody looked at: the needle's seat, its shims, its clip, the pilot jet and how jets
 * are numbered, and whether a short spring was cut. One case for each way it may be; none where everything that changed is known, or nothing changed. Source: judgement.
 */
export function unknownCases(state: FuelState): readonly StateCase[] {
  return [
    ...seatCases(state),
    ...shimCases(state),
    ...clipCases(state),
    ...pilotCases(state),
    ...numberCases(state),
    ...springCases(state),
  ];
}

const from = (state: FuelState, settings: SettingValues): FuelState => ({
  ...state,
  reference: { ...state.reference, settings: { ...state.reference.settings, ...settings } },
});

const unsure = (state: FuelState, key: "clipPosition" | "needleSeatMm" | "needleShimBelowMm" | "pilotJet") =>
  state.reference.settings[key] === undefined || state.reference.unsure?.includes(key) === true;

function seatCases(state: FuelState): StateCase[] {
  const now = state.settings.needleSeatMm;
  const was = state.reference.settings.needleSeatMm ?? now;
  if (now === undefined || was === undefined || !unsure(state, "needleSeatMm")) return [];
  if (state.reference.settings.needleSeatMm === now) return [];
  const settle = "Measure the needle's seat height before it is changed.";
  return [-SEAT_MM, SEAT_MM].map((by) => ({
    name: `needle found ${SEAT_MM} mm ${by < 0 ? "lower" : "higher"}`,
    settle,
    state: from(state, { needleSeatMm: was + by }),
  }));
}

function shimCases(state: FuelState): StateCase[] {
  const now = state.settings.needleShimBelowMm;
  if (now === undefined || now === 0 || state.reference.settings.needleShimBelowMm !== undefined) return [];
  return [
    {
      name: "no shim below the needle as found",
      settle: "Count and measure the shims below the needle's shoulder before it is changed.",
      state: from(state, { needleShimBelowMm: 0 }),
    },
  ];
}

function clipCases(state: FuelState): StateCase[] {
  const needle = state.reference.needle ?? state.card.needle;
  const clip = state.settings.clipPosition;
  const was = state.reference.settings.clipPosition ?? needle?.value.clipAt;
  if (clip === undefined || was === undefined || clip === was || !unsure(state, "clipPosition")) return [];
  const clips = needle?.value.clips ?? 5;
  return [was - 1, was + 1]
    .filter((groove) => groove >= 1 && groove <= clips)
    .map((groove) => ({
      name: `clip found in groove ${groove}`,
      settle: "Look which groove the clip is in before it is changed.",
      state: from(state, { clipPosition: groove }),
    }));
}

function pilotCases(state: FuelState): StateCase[] {
  const now = state.settings.pilotJet;
  if (now === undefined || state.reference.settings.pilotJet === now || !unsure(state, "pilotJet")) return [];
  return [
    {
      name: `pilot jet found ${now} already`,
      settle: "Read the pilot jet's number before it is changed.",
      state: from(state, { pilotJet: now }),
    },
  ];
}

function numberCases(state: FuelState): StateCase[] {
  if (state.card.jetConvention !== undefined) return [];
  const changed = (["mainJet", "pilotJet"] as const).some(
    (key) =>
      state.settings[key] !== undefined &&
      state.reference.settings[key] !== undefined &&
      state.settings[key] !== state.reference.settings[key],
  );
  if (!changed) return [];
  return [
    {
      name: "jets numbered by flow",
      settle: "Look at the model card whether this maker's jets are numbered by bore or by flow.",
      state: { ...state, card: { ...state.card, jetConvention: { value: "flow", how: "read" } } },
    },
  ];
}

/** A spring found shorter than delivered was cut, as it is taken to be, or has sagged: its coils tell. */
function springCases(state: FuelState): StateCase[] {
  const { springLengthMm: found, springCoils: counted } = state.reference.settings;
  const { springLengthMm: delivered, springCoils } = deliveredSpring(state.card);
  if (state.reference.spring !== undefined) return [];
  if (found === undefined || counted !== undefined || delivered === undefined || springCoils === undefined)
    return [];
  const now = state.settings.springLengthMm ?? found;
  if (state.card.carburettorType?.value === "mechanical" || found >= delivered || sameLength(now, found))
    return [];
  const sagged = from(state, { springCoils });
  const left = now < found ? (springCoils * now) / found : springCoils;
  return [
    {
      name: `slide spring sagged to ${found} mm, not cut`,
      settle: "Count the slide spring's active coils before it is changed.",
      state: { ...sagged, settings: { ...state.settings, springCoils: state.settings.springCoils ?? left } },
      movesSlide: true,
    },
  ];
}
