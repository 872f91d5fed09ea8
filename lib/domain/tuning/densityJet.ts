import type { Air } from "../air/weather";
import type { Reason } from "../reason";
import { fuelNamed } from "./fuels";
import { jetAreaMm2, jetSizeForArea } from "./jets";
import { settingDef } from "./settings";
import type { CarburettorType, DensityJet, JetConvention } from "./targetTypes";

/** Sizes further apart than this are told as two answers: half of a step. Source: judgement. */
const APART = 1.25;

/** Half a size is the step of jets; a size is rounded up to it, which is the richer side. */
const STEP = settingDef("mainJet")?.step ?? 2.5;

/**
 * The jet that air density alone asks for, by the square-root law: fuel area goes as dry-air density over the root of the
 * density that makes the signal. ISA from 0 to 3000 m: area x 0.8615. Firm: no carburettor, spring or bike enters it.
 * A change of fuel enters by its stoichiometric ratio and density, which are as firm. Source: Heywood 7.2 at equal air volume;
 * CIPM-2007 densities. Throws OutOfRange for an impossible size, Refusal for an unknown fuel.
 */
export function densityJet(
  size: number,
  convention: JetConvention,
  now: Air,
  reference: Air,
  fuel?: { readonly now: string; readonly reference: string },
): DensityJet {
  const areaRatio =
    (now.dryDensityKgM3 / reference.dryDensityKgM3 / Math.sqrt(now.densityKgM3 / reference.densityKgM3)) *
    fuelArea(fuel);
  const exact = jetSizeForArea(jetAreaMm2(size, convention) * areaRatio, convention);
  const rounded = Math.ceil(exact / STEP - 1e-9) * STEP;
  const because: Reason[] = [
    {
      fact: `Dry air ${((100 * now.dryDensityKgM3) / reference.dryDensityKgM3).toFixed(1)} % of where ${size} was right`,
      from: "CIPM-2007",
      effect: `fuel area x ${areaRatio.toFixed(4)} by the square-root law`,
      firmness: "firm",
    },
    {
      fact: `Exactly ${exact.toFixed(1)} by air density alone`,
      from: "square-root law, Heywood 7.2",
      effect: `${rounded}, rounded to the richer size`,
      firmness: "firm",
    },
  ];
  if (fuel && fuel.now !== fuel.reference)
    because.unshift({
      fact: `${fuel.reference} before, ${fuel.now} now`,
      from: "stoichiometric ratio and density of the fuels",
      effect: `fuel area x ${fuelArea(fuel).toFixed(3)}`,
      firmness: "firm",
    });
  if (now.assumed || reference.assumed)
    because.push({
      fact: "Pressure or temperature was not measured",
      from: "standard or typical air",
      effect: "the density holds as far as they do",
      firmness: "starting point",
    });
  return { exact, size: rounded, areaRatio, because };
}

/** Metering area that another fuel asks for at one air: stoichiometric ratios and roots of densities. Source: fuels.ts. */
function fuelArea(fuel: { readonly now: string; readonly reference: string } | undefined): number {
  if (!fuel || fuel.now === fuel.reference) return 1;
  const flow = (name: string) => {
    const { stoichiometric, density15KgM3 } = fuelNamed(name);
    return stoichiometric * Math.sqrt(density15KgM3);
  };
  return flow(fuel.reference) / flow(fuel.now);
}

/**
 * The two answers to a change of air, where there is one: density alone, which is firm, and the whole model, which is judged; why
 * they differ, and how a ride decides. Source: Heywood 7.2 against slide statics.
 */
export function bothLaws(
  density: DensityJet,
  exact: number,
  fitted: number,
  type: CarburettorType,
): readonly Reason[] {
  if (Math.abs(density.exact - fitted) < 0.05) return [];
  if (Math.abs(density.exact - exact) < APART) return density.because;
  const model = type === "cv" ? "fuel model, constant depression under the slide" : "fuel model";
  return [
    ...density.because,
    {
      fact: `Exactly ${exact.toFixed(1)} by the whole model`,
      from: model,
      effect:
        type === "cv"
          ? "a spring-loaded slide keeps the signal up in thin air, the law lets it fall"
          : "breathing and slide besides the air",
      firmness: "starting point",
    },
    {
      fact: `${density.size} first; lambda there decides between ${density.exact.toFixed(1)} and ${exact.toFixed(1)}`,
      from: "a steady reading at full load",
      effect:
        exact < density.exact
          ? "rich at full load: the model is right"
          : "lean at full load: the model is right",
      firmness: "starting point",
    },
  ];
}
