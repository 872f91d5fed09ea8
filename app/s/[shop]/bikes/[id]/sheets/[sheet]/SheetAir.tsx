import { Opens } from "@/app/_ui/Opens";
import type { Air } from "@/lib/domain/air/weather";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { shownText } from "../../../../bench/shown";

/** The air a sheet was set in: measured, or typical of the month and marked so; it opens to where it comes from. */
export function SheetAir({ air, units, locale }: { air: Air; units: string; locale: string }) {
  const system = units as UnitSystem;
  return (
    <>
      <Opens name="The air it was set in" because={air.because} firmness={air.firmness}>
        {shownText("airTemperature", air.temperatureK, system, locale)},{" "}
        {shownText("airPressure", air.pressurePa, system, locale)}
      </Opens>{" "}
      <span className="text-[14px] text-soft">{air.assumed ? "typical, not all measured" : "measured"}</span>
    </>
  );
}
