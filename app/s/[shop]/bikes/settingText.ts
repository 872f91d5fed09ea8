import { figureText } from "@/app/_ui/format";

/** A setting's value as it is written on paper. */
export function settingText(
  row: { setting: string; decimals: number; unit: string },
  value: number,
  locale: string,
): string {
  if (row.setting === "snorkelFitted") return value === 1 ? "yes" : "no";
  return `${figureText(Number(value.toFixed(row.decimals)), locale)}${row.unit && ` ${row.unit}`}`;
}

export const KIND_NAMES = { asFound: "As found", target: "Target", asLeft: "As left" } as const;
