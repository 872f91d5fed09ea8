"use server";
import { describePart as keepPart } from "@/lib/data/bikes/describedParts";
import { action } from "@/lib/gate/action";
import { DescribePartSchema } from "@/lib/schemas/describedParts";

export const describePart = action("sheet.write", DescribePartSchema, async (shop, input, call) => {
  await keepPart(shop, { ...input, key: call.key });
  return {
    to: `/s/${shop.slug}/bikes/${input.bikeId}/parts?c=${input.carburettor}`,
    toast: "Part recorded.",
  };
});
