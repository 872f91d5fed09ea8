"use server";
import { keepDifferent } from "@/lib/data/jobs/different";
import { action } from "@/lib/gate/action";
import { KeepDifferentSchema } from "@/lib/schemas/packages";

export const keepIt = action("package.write", KeepDifferentSchema, async (shop, input, { key }) => {
  const number = await keepDifferent(shop, { ...input, key });
  return {
    to: `/s/${shop.slug}/packages/${input.packageId}?revision=${number}`,
    toast: `In draft ${number}, with its evidence. Look it through, then publish it.`,
  };
});
