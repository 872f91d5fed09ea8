"use server";
import { addToJob, anotherYes } from "@/lib/data/acceptance/addToJob";
import type { ShortPart } from "@/lib/data/acceptance/job";
import { closeFree } from "@/lib/data/jobs/closeFree";
import { action } from "@/lib/gate/action";
import { AddToJobSchema, AnotherYesSchema, CloseFreeSchema } from "@/lib/schemas/agreements";
import { quantityText } from "@/lib/schemas/quantity";

const added = (short: readonly ShortPart[]) => ({
  toast: [
    "Added.",
    ...short.map((part) => {
      const who = part.reservedBy.map((one) => `job ${one.jobNumber}`).join(", ");
      return `${part.name}: ${quantityText(part.shortMilli, part.unit)} missing${who ? `, reserved for ${who}` : ""}.`;
    }),
  ].join(" "),
});

export const addWork = action("job.work", AddToJobSchema, async (shop, input, { key }) =>
  added(await addToJob(shop, { ...input, key })),
);

/** The desk adds to a job as well. */
export const addWorkAtDesk = action("job.write", AddToJobSchema, async (shop, input, { key }) =>
  added(await addToJob(shop, { ...input, key })),
);

export const writeYes = action("job.write", AnotherYesSchema, async (shop, input, { key }) => {
  await anotherYes(shop, { ...input, key });
  return { toast: "The yes is written down." };
});

export const closeWithout = action("job.write", CloseFreeSchema, async (shop, input, { key }) => {
  await closeFree(shop, { ...input, key });
  return { toast: "Closed. Nobody is invoiced." };
});
