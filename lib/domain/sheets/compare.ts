import { SETTINGS } from "../tuning/settings";
import type { SheetValue } from "./check";

export interface ComparedCell {
  readonly value: number;
  readonly how: string;
  /** Differs from the nearest filled cell to its left. */
  readonly differs: boolean;
}

export interface ComparedRow {
  readonly carburettor: number;
  readonly setting: string;
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  /** One per sheet, in the order given; null where the sheet does not say. */
  readonly cells: readonly (ComparedCell | null)[];
  readonly differs: boolean;
}

/**
 * Sheets side by side: one row for each carburettor's setting that any of them knows, in the order of SETTINGS.
 * Values are the same when they agree to a millionth of the setting's step. Pure.
 */
export function compareSheets(sheets: readonly (readonly SheetValue[] | null)[]): ComparedRow[] {
  const carburettors = [...new Set(sheets.flatMap((sheet) => sheet?.map((v) => v.carburettor) ?? []))].sort(
    (a, b) => a - b,
  );
  const rows: ComparedRow[] = [];
  for (const carburettor of carburettors)
    for (const def of SETTINGS) {
      let last: number | null = null;
      const cells = sheets.map((sheet): ComparedCell | null => {
        const found = sheet?.find((v) => v.carburettor === carburettor && v.setting === def.key);
        if (!found) return null;
        const differs = last !== null && Math.abs(found.value - last) > def.step * 1e-6;
        last = found.value;
        return { value: found.value, how: found.how, differs };
      });
      if (cells.every((cell) => cell === null)) continue;
      rows.push({
        carburettor,
        setting: def.key,
        name: def.name,
        unit: def.unit,
        decimals: def.decimals,
        cells,
        differs: cells.some((cell) => cell?.differs),
      });
    }
  return rows;
}
