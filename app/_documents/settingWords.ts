import { figureText } from "@/app/_ui/format";
import { settingDef } from "@/lib/domain/tuning/settings";
import { wordsIn } from "@/lib/words/words";

interface Changed {
  readonly setting: string;
  readonly value: number;
  readonly from: number | null;
}

/** A setting's value with its unit, as it is said: "1.5 turns out", not "1.500". */
function valueText(setting: string, value: number, locale: string): string {
  const def = settingDef(setting);
  if (!def) return figureText(value, locale);
  if (def.key === "mixtureScrewTurns")
    return wordsIn(locale)("setting.turns", { value: figureText(Number(value.toFixed(3)), locale) });
  const figure = figureText(value, locale, def.decimals);
  return def.unit === "" ? figure : `${figure} ${def.unit}`;
}

/** A setting's change in a plain sentence. */
export function settingSentence({ setting, value, from }: Changed, locale: string): string {
  const def = settingDef(setting);
  if (!def) return setting;
  const say = wordsIn(locale);
  if (def.key === "snorkelFitted") return say(value === 0 ? "setting.snorkelOut" : "setting.snorkelIn");
  const name = say(`setting.name.${def.key}`);
  const to = valueText(setting, value, locale);
  return from === null
    ? say("setting.set", { name, to })
    : say("setting.changed", { name, from: valueText(setting, from, locale), to });
}

/** What a setting does for the rider. */
export function settingPurpose(setting: string, locale: string): string {
  const def = settingDef(setting);
  return def ? wordsIn(locale)(`setting.does.${def.key}`) : "";
}
