"use server";
import { recordBalance } from "@/lib/data/jobs/balances";
import { action } from "@/lib/gate/action";
import { BalanceSchema } from "@/lib/schemas/balances";

export const readBalance = action("sheet.write", BalanceSchema, async (shop, input, call) => {
  const { inBand } = await recordBalance(shop, { ...input, key: call.key });
  return { toast: inBand ? "Kept: in the band." : "Kept: not in the band yet." };
});
