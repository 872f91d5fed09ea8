import { figureText } from "@/app/_ui/format";
import { type EffectKind, effectDef, type Under } from "@/lib/domain/procedures/effects";
import { THROTTLE_WORDS } from "../jobs/[id]/rideWords";

/** A value of a kind with its unit; a change has its sign. */
export function effectText(kind: EffectKind, value: number, locale: string, change = false): string {
  const { unit, decimals } = effectDef(kind);
  const text = figureText(value, locale, decimals);
  const signed = change && value > 0 && !/^[0.,]*$/.test(text) ? `+${text}` : text;
  return unit ? `${signed} ${unit}` : signed;
}

/** What a figure was taken under: “at 0.5 m, 4,000 rpm”; empty where nothing is kept. */
export function underText(under: Under, locale: string): string {
  const { distanceM, rpm, throttle, standard, litres, km } = under;
  const parts = [
    distanceM === undefined ? "" : `at ${figureText(distanceM, locale)} m`,
    rpm === undefined ? "" : `${figureText(rpm, locale)} rpm`,
    throttle === undefined ? "" : `throttle ${THROTTLE_WORDS[throttle as keyof typeof THROTTLE_WORDS]}`,
    standard ?? "",
    litres === undefined || km === undefined
      ? ""
      : `${figureText(litres, locale)} l on ${figureText(km, locale)} km`,
  ];
  return parts.filter(Boolean).join(", ");
}
