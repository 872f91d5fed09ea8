import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import type { LateSaid } from "@/lib/schemas/timeEntries";
import { demandVersion, jobIn, moveJobIn } from "../jobs/states";
import { endAllIn } from "../jobs/time/end";
import { releaseIn } from "../stock/reservations";
import { tellCancelledIn } from "./book";

export interface CancelJobInput extends LateSaid {
  jobId: number;
  version: number;
  reason: string;
  key?: string | undefined;
}

/**
 * Ends a job that will not be done: its reserved parts become free, and so do its coming bookings, of which the customer is told.
 * Time that runs on it is ended; a forgotten entry is asked about first.
 */
export async function cancelJob(shop: ShopHandle, input: CancelJobInput): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "cancelled a job", input, async () => {
      const job = await jobIn(tx, input.jobId);
      demandVersion(job, input.version);
      await endAllIn(tx, shop, job.id, input);
      await tellCancelledIn(tx, shop, job.id);
      await moveJobIn(tx, job, ["waiting", "booked", "inWork", "ride"], {
        state: "cancelled",
        closedAt: shop.now,
        notes: `Cancelled: ${input.reason}`,
        stopped: "",
      });
      await releaseIn(tx, shop, job.id);
      await audit(tx, shop, "cancelled", "job", job.id, { reason: input.reason });
      return job.id;
    }),
  );
}
