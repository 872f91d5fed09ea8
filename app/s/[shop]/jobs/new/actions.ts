"use server";
import { openJob } from "@/lib/data/acceptance/openJob";
import { action } from "@/lib/gate/action";
import { OpenJobSchema } from "@/lib/schemas/agreements";

export const openAJob = action("job.write", OpenJobSchema, async (shop, input, { key }) => {
  const id = await openJob(shop, { ...input, key });
  return { to: `/s/${shop.slug}/jobs/${id}`, toast: "The job is open." };
});
