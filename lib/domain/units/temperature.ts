import { shownUnit, type UnitSystem } from "./systems";

/** The unit in which a shop reads temperatures of the air. */
export const temperatureUnit = (system: UnitSystem): "degC" | "degF" =>
  shownUnit(system, "airTemperature").unit === "degF" ? "degF" : "degC";
