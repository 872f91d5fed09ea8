"use server";
import { beginSeries, numberSeries } from "@/lib/data/shop/numbers";
import { action } from "@/lib/gate/action";
import { FirstNumberSchema, NUMBERED } from "@/lib/schemas/numbers";

export const chooseFirst = action("shop.write", FirstNumberSchema, async (shop, input, call) => {
  await beginSeries(shop, { ...input, key: call.key });
  const begun = (await numberSeries(shop)).find((one) => one.kind === input.kind);
  return { toast: `${NUMBERED[input.kind].name} begin at ${begun?.nextWritten ?? input.first}.` };
});
