/** What an option or a correction does to one setting. */
export interface SettingChange {
  /** A key of lib/domain/tuning/settings.ts. */
  readonly setting: string;
  /** "computed": the tuning library decides. "set"/"add": value in the setting's own unit. */
  readonly change: "computed" | "set" | "add";
  readonly value?: number;
}
