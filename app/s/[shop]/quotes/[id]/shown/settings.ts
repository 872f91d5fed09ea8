import { settingRows } from "@/app/_documents/settingRows";
import type { Firmness, Reason } from "@/lib/domain/reason";
import type { TargetSheet } from "@/lib/domain/tuning/targetTypes";
import { restsOn } from "../../../bikes/restsOn";

export interface SettingsShown {
  /** The carburettor. */
  readonly key: string;
  readonly rows: readonly {
    readonly key: string;
    readonly name: string;
    readonly from: string;
    readonly to: string;
    readonly rests: string;
    readonly density: string;
    readonly firmness: Firmness;
    /** Absent where they are asked for when the setting is opened. */
    readonly because?: readonly Reason[];
  }[];
}

/** The settings that change as they are shown; with `reasons` what each rests on is told along. */
export const settingsShown = (sheet: TargetSheet | null, locale: string, reasons: boolean): SettingsShown[] =>
  settingRows(sheet, locale).map(({ key: carburettor, rows }) => ({
    key: carburettor,
    rows: rows.map(({ key, name, from, to, density, setting, because, firmness }) => ({
      key,
      name,
      from,
      to,
      density,
      firmness,
      rests: restsOn(setting),
      ...(reasons ? { because } : {}),
    })),
  }));
