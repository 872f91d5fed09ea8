"use server";
import { signHandover } from "@/lib/data/jobs/signHandover";
import { action } from "@/lib/gate/action";
import { SignHandoverSchema } from "@/lib/schemas/handover";

export const sign = action("intake.write", SignHandoverSchema, async (shop, input, call) => {
  await signHandover(shop, { ...input, key: call.key });
  return { toast: "Signed: the bike is handed over." };
});
