"use server";
import { saveSheet } from "@/lib/data/bikes/sheets";
import { keptKm } from "@/lib/domain/units/distance";
import { action } from "@/lib/gate/action";
import { SheetSchema } from "@/lib/schemas/sheets";

export const recordSheet = action("sheet.write", SheetSchema, async (shop, input, call) => {
  const odometerKm = keptKm(input.odometerKm, shop.settings.units);
  const { temperatureC, pressureHpa, humidityPercent, ...sheet } = input;
  const air = { temperatureC, pressureHpa, humidityPercent };
  const id = await saveSheet(shop, { ...sheet, odometerKm, measuredAir: air, key: call.key });
  return { to: `/s/${shop.slug}/bikes/${input.bikeId}/sheets/${id}`, toast: "Sheet recorded." };
});
