"use server";
import { recordNeedle } from "@/lib/data/bikes/needles";
import { action } from "@/lib/gate/action";
import { FittedNeedleSchema } from "@/lib/schemas/needles";

export const measureNeedle = action("sheet.write", FittedNeedleSchema, async (shop, input, call) => {
  await recordNeedle(shop, { ...input, key: call.key });
  const home = `/s/${shop.slug}`;
  return {
    to: input.jobId
      ? `${home}/jobs/${input.jobId}/card`
      : `${home}/bikes/${input.bikeId}/needle?c=${input.carburettor}`,
    toast: "Needle recorded.",
  };
});
