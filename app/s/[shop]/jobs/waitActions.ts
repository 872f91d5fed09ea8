"use server";
import { CARD_ACTS } from "@/app/_acts/cardActs";
import { handOver } from "@/lib/data/jobs/handOvers";
import { endWait, setWait } from "@/lib/data/jobs/waits";
import { action } from "@/lib/gate/action";
import { EndWaitSchema, HandOverSchema, WaitSchema } from "@/lib/schemas/waits";

export const wait = action("job.work", WaitSchema, async (shop, input, call) => {
  await setWait(shop, { ...input, key: call.key });
  return { toast: "It waits: Today shows it." };
});

export const endOneWait = action("job.work", EndWaitSchema, async (shop, input) => {
  await endWait(shop, input);
  return { toast: "It waits no longer." };
});

export const handJobOver = action("job.work", HandOverSchema, async (shop, input, call) => {
  await handOver(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}`, toast: "Handed over." };
});

export const noteStep = action("job.work", CARD_ACTS.noteStep.schema, CARD_ACTS.noteStep.run);
