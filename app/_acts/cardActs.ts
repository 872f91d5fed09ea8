import { skipStep } from "@/lib/data/jobs/exceptions";
import { passStep } from "@/lib/data/jobs/pass";
import { addStepNote } from "@/lib/data/jobs/stepNotes";
import { startTime, stopOnJob, stopTime } from "@/lib/data/jobs/time/run";
import { useReserved as takeReserved } from "@/lib/data/stock/reservations";
import { shopAct } from "@/lib/gate/keptAct";
import { formId } from "@/lib/schemas/ids";
import { PassSchema, SkipSchema, UsePartSchema } from "@/lib/schemas/jobs";
import { StartTimeSchema, StopHereSchema } from "@/lib/schemas/timeEntries";
import { StepNoteSchema } from "@/lib/schemas/waits";

const ofJob = { jobId: formId() };

/**
 * What is done on a card: by its forms, and later by a device that had no connection. Time past the shift is asked about by the
 * forms first; of a device's it is refused, and its person decides.
 */
export const CARD_ACTS = {
  pass: shopAct(
    "job.work",
    PassSchema.extend(ofJob),
    async (shop, { jobId, parts, why, jets, jetSizes, jetWhys, ...input }, call) => {
      const said = Object.entries(parts ?? {}).flatMap(([id, how]) =>
        how === "" ? [] : [{ reservationId: Number(id), used: how === "used", why: why?.[id] ?? "" }],
      );
      const fitted = Object.entries(jets ?? {}).flatMap(([at, how]) =>
        how === ""
          ? []
          : [
              {
                at: Number(at),
                partId: how === "other" ? null : Number(how),
                size: jetSizes?.[at] ?? null,
                why: jetWhys?.[at] ?? "",
              },
            ],
      );
      const outcome = await passStep(shop, { ...input, parts: said, jets: fitted, key: call.key });
      const toast = outcome === "passed" ? "Passed." : "Outside its limits: the job is stopped here.";
      return { to: `/s/${shop.slug}/jobs/${jobId}/card`, toast };
    },
  ),
  skip: shopAct("job.work", SkipSchema.extend(ofJob), async (shop, { jobId, ...input }, call) => {
    await skipStep(shop, { ...input, key: call.key });
    return { to: `/s/${shop.slug}/jobs/${jobId}/card`, toast: "Skipped." };
  }),
  takePart: shopAct("stock.use", UsePartSchema, async (shop, input, call) => {
    await takeReserved(shop, { ...input, key: call.key });
    return { toast: "Used." };
  }),
  start: shopAct("job.work", StartTimeSchema, async (shop, input, call) => {
    await startTime(shop, { ...input, key: call.key });
    return { toast: "Your time runs." };
  }),
  stop: shopAct("job.work", StopHereSchema, async (shop, input, call) => {
    if ("entryId" in input) await stopTime(shop, { ...input, key: call.key });
    else await stopOnJob(shop, { ...input, key: call.key });
    return { toast: "Your time is stopped." };
  }),
  noteStep: shopAct("job.work", StepNoteSchema, async (shop, input, call) => {
    await addStepNote(shop, { ...input, key: call.key });
    return { toast: "Noted." };
  }),
} as const;
