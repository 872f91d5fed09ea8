import { figureText } from "@/app/_ui/format";
import { settingDef } from "@/lib/domain/tuning/settings";

interface Changed {
  readonly setting: string;
  readonly value: number;
  readonly from: number | null;
}

/** A setting's change in a plain sentence. */
export function settingSentence({ setting, value, from }: Changed, locale: string): string {
  const def = settingDef(setting);
  if (!def) return setting;
  if (setting === "snorkelFitted")
    return value === 0 ? "The snorkel comes out." : "The snorkel goes back in.";
  const text = (n: number) => `${figureText(n, locale, def.decimals)}${def.unit ? ` ${def.unit}` : ""}`;
  return from === null
    ? `${def.name}: ${text(value)}.`
    : `${def.name}: from ${text(from)} to ${text(value)}.`;
}
