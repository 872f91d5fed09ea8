"use server";
import { mergeBikes } from "@/lib/data/merging/bikes";
import { mergeCustomers } from "@/lib/data/merging/customers";
import { mergeParts } from "@/lib/data/merging/parts";
import { action } from "@/lib/gate/action";
import { MergeSchema } from "@/lib/schemas/merging";

export const mergeTwoCustomers = action("record.merge", MergeSchema, async (shop, pair) => ({
  to: `/s/${shop.slug}/customers/${await mergeCustomers(shop, pair)}`,
  toast: "Merged. Links to the other one lead here.",
}));

export const mergeTwoBikes = action("record.merge", MergeSchema, async (shop, pair) => ({
  to: `/s/${shop.slug}/bikes/${await mergeBikes(shop, pair)}`,
  toast: "Merged. Links to the other one lead here.",
}));

export const mergeTwoParts = action("record.merge", MergeSchema, async (shop, pair) => ({
  to: `/s/${shop.slug}/stock/${await mergeParts(shop, pair)}`,
  toast: "Merged. Links and labels of the other one lead here.",
}));
