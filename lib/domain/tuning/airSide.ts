import type { Air } from "../air/weather";
import { boxDepressionPa, effectiveOpeningM2, weldLoss } from "./breathing";
import type { Fitted } from "./circuits";
import { fuelDensityKgM3, fuelNamed } from "./fuels";
import { seriesArea } from "./jets";
import type { Machine } from "./machine";
import { cvBalance, portDepressionPa, slidePortM2 } from "./slide";
import { fitsItsPlace, type SlideSpring, sameLength, springFrom } from "./springCut";
import type { SettingValues } from "./targetTypes";
import { fillingAt, VOLUMETRIC } from "./volumetric";

/** The air side at one grip opening. */
export interface AirSide {
  readonly throttle: number;
  readonly rpm: number;
  readonly liftMm: number;
  readonly liftShare: number;
  /** sqrt(fuel density x signal) / dry air mass flow, times stoichiometry: richness per mm2 of metering area. */
  readonly perArea: number;
  /** The same for the pilot circuit, whose signal follows the air flow. */
  readonly perPilotArea: number;
}

const DISCHARGE = 0.85;
/** Peak over mean flow by cylinders sharing a carburettor. Source: judgement. */
const pulse = (cylinders: number) => (cylinders < 1.5 ? 2.2 : cylinders < 2.5 ? 1.6 : 1.2);
/** Height of the fuel outlet over the level in the bowl, m, with the reference's float height. Source: judgement. */
const LIP_M = 0.005;
/** Signal of the pilot circuit, Pa, for what the level does to it. Source: judgement. */
const PILOT_PA = 900;
const GRAVITY = 9.80665;
/** Density of exhaust gas, kg/m3. Source: judgement. */
const HOT_KG_M3 = 0.45;

/** Engine speed a bike is ridden at for a grip opening. Source: judgement. */
const roadRpm = (rated: number, throttle: number) => rated * (0.35 + 0.6 * throttle);

/**
 * Air flow, slide lift and fuel signal of one carburettor at a grip opening (0 to 1), a vent case and an engine speed (absent: as
 * ridden on the road). A greater float height is a lower level, which takes from the signal.
 * Source: Bernoulli through butterfly or slide, slide statics; pulse and speed-over-opening are judgements.
 */
export function airSide(
  m: Machine,
  fitted: Fitted,
  vented: "atmosphere" | "airbox",
  throttle: number,
  rpm = roadRpm(m.ratedRpm, throttle),
): AirSide {
  const { settings: s, air } = fitted;
  const demand = ((m.sweptM3 * rpm) / 120) * VOLUMETRIC * fillingAt(rpm / m.ratedRpm, m.filling);
  const peak = demand * pulse(m.cylindersPerCarburettor);
  const mean = demand * load(m, throttle, peak);
  const openings = effectiveOpeningM2([
    s.snorkelFitted === 0
      ? { diameterMm: m.snorkelHoleMm, kind: "wall" }
      : { diameterMm: m.snorkelMm, kind: "reentrant" },
    { diameterMm: s.airboxOpeningMm ?? 0, kind: "wall" },
  ]);
  const filter = fitted.flows?.filterM2;
  const through = filter === undefined ? openings : seriesArea(openings, filter);
  const box = boxDepressionPa(mean * m.carburettors, through, air.densityKgM3);
  const behind = exhaustLoss(m, s, mean, air) + silencerLoss(m, fitted.flows?.silencerM2, mean, air);
  const thin = Math.max(0.5, 1 - box / air.pressurePa - behind);
  const flow = mean * pulse(m.cylindersPerCarburettor) * thin;
  const felt = vented === "atmosphere" ? box : 0;
  const slide = cvSlide(m, s, fitted.spring);
  const balance =
    m.type === "cv"
      ? cvBalance(slide, flow, air.densityKgM3, felt)
      : {
          liftM: throttle * m.boreM,
          depressionPa: portDepressionPa(slide, throttle * m.boreM, flow, air.densityKgM3),
        };
  const fuel = fuelNamed(fitted.fuel);
  const fuelDensity = fuelDensityKgM3(fuel.density15KgM3, fitted.fuelTemperatureK);
  const dryFlow = air.dryDensityKgM3 * flow;
  const head = fuelDensity * GRAVITY;
  const lower =
    s.floatHeightMm === undefined || m.floatHeightMm === undefined
      ? 0
      : (s.floatHeightMm - m.floatHeightMm) / 1000;
  const signal = balance.depressionPa + felt;
  // Lifting the fuel to its outlet takes part of the signal; a fifth is left at least, where the model ends.
  const main = Math.max(0.2 * signal, signal - head * (LIP_M + lower));
  const pilot = Math.max(0.2, 1 - (head * lower) / PILOT_PA);
  return {
    throttle,
    rpm,
    liftMm: balance.liftM * 1000,
    liftShare: balance.liftM / m.boreM,
    perArea: (fuel.stoichiometric * Math.sqrt(fuelDensity * main)) / dryFlow,
    perPilotArea:
      (fuel.stoichiometric * Math.sqrt(fuelDensity * air.densityKgM3 * pilot)) / air.dryDensityKgM3,
  };
}

/** Part of the full-load flow that passes: the throttle's area against the engine's, in series. */
function load(m: Machine, throttle: number, peakM3S: number): number {
  const engine = peakM3S / 100;
  const bore = (Math.PI / 4) * m.boreM ** 2;
  const angle = ((8 + 82 * throttle) * Math.PI) / 180;
  const open =
    m.type === "cv"
      ? bore * (0.008 + 0.992 * (1 - Math.cos(angle) / Math.cos((8 * Math.PI) / 180)))
      : slidePortM2(m.boreM, throttle * m.boreM + 0.0006);
  const passes = (area: number) => area / Math.hypot(area, engine);
  return passes(open) / passes(bore);
}

/** Share of the charge lost to a weld ring in the header: half of its pressure loss over ambient. Source: judgement. */
function exhaustLoss(m: Machine, s: SettingValues, meanM3S: number, air: Air): number {
  if (s.headerWeldMm === undefined) return 0;
  const each = meanM3S / m.cylindersPerCarburettor;
  const speed = ((each * air.densityKgM3) / HOT_KG_M3 / ((Math.PI / 4) * (m.headerMm / 1000) ** 2)) * 2.2;
  return Math.min(
    0.1,
    (0.25 * HOT_KG_M3 * speed ** 2 * weldLoss(m.headerMm, s.headerWeldMm)) / air.pressurePa,
  );
}

/**
 * Share of the charge lost to a silencer of known flow: half of its pressure loss over ambient, at the mean flow of all cylinders as
 * hot exhaust. Source: Bernoulli; half and the gas's density are judgements, as for a weld.
 */
function silencerLoss(m: Machine, areaM2: number | undefined, meanM3S: number, air: Air): number {
  if (areaM2 === undefined) return 0;
  const kgS = meanM3S * m.carburettors * air.densityKgM3;
  return Math.min(0.1, (0.5 * kgS ** 2) / (2 * HOT_KG_M3 * areaM2 ** 2) / air.pressurePa);
}

/** The spring that the settings name: cut from the reference's where they differ, and from a new one where it is longer than that. */
function springNow(m: Machine, s: SettingValues): SlideSpring {
  const was = m.springSaid.springLengthMm ?? 0;
  const longer = (s.springLengthMm ?? 0) > was && !sameLength(s.springLengthMm, was);
  return longer ? springFrom(m.springNew.spring, m.springNew.said, s) : springFrom(m.spring, m.springSaid, s);
}

/** The slide with the spring as described, else with the one that the settings name. Throws Refusal (springCut.ts). */
export function cvSlide(m: Machine, s: SettingValues, described?: SlideSpring) {
  const spring = described ?? springNow(m, s);
  return {
    boreM: m.boreM,
    liftMaxM: m.boreM,
    diaphragmM2: m.diaphragmM2,
    massKg: m.slideMassKg,
    ...(m.springPlaceKnown ? fitsItsPlace(spring, m.springInstalledM) : spring),
    inner: m.innerSpring,
    installedM: m.springInstalledM,
    discharge: DISCHARGE,
    clearanceM: 0.0006,
  };
}
