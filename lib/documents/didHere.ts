import { effectDef, type OverBikes } from "../domain/procedures/effects";
import { type Said, wordsIn } from "../words/words";
import { numberText } from "./format";

/** “On 14 bikes: noise +2.1 dB(A) in the middle, from +1.0 dB(A) to +3.4 dB(A), 0.5 m away, 4,000 rpm”. */
export function didHereText({ kind, under, median, low, high, bikes }: OverBikes, locale: string): string {
  const say = wordsIn(locale);
  const change = (value: number) => changeText(say, kind, value, locale);
  const what = say(`didHere.kind.${kind}`);
  const values = { what, change: change(median), under: underText(say, under, locale) };
  if (bikes === 1) return say("didHere.one", values);
  return say("didHere.many", { ...values, bikes: String(bikes), low: change(low), high: change(high) });
}

function changeText(say: Said, kind: OverBikes["kind"], value: number, locale: string): string {
  const text = numberText(value, locale, effectDef(kind).decimals);
  const unit = kind === "lambda" ? "" : say(`didHere.unit.${kind}`);
  const signed = value > 0 && !/^[0.,]*$/.test(text) ? `+${text}` : text;
  return unit ? `${signed} ${unit}` : signed;
}

function underText(
  say: Said,
  { distanceM, rpm, throttle, standard }: OverBikes["under"],
  locale: string,
): string {
  const parts = [
    distanceM === undefined ? "" : say("didHere.under.distance", { metres: numberText(distanceM, locale) }),
    rpm === undefined ? "" : say("didHere.under.speed", { rpm: numberText(rpm, locale) }),
    throttle === undefined ? "" : say(`observed.place.${throttle as "full"}`),
    standard ?? "",
  ];
  return parts
    .filter(Boolean)
    .map((part) => `, ${part}`)
    .join("");
}
