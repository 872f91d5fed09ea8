"use server";
import { finishFollowUp } from "@/lib/data/followUps/finish";
import { action } from "@/lib/gate/action";
import { FinishFollowUpSchema } from "@/lib/schemas/followUps";

export const finish = action("followUp.write", FinishFollowUpSchema, async (shop, input, call) => {
  await finishFollowUp(shop, { ...input, key: call.key });
  return { toast: input.state === "done" ? "Done." : "Dropped." };
});
