import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { outstanding } from "@/lib/domain/invoices/state";
import { createFollowUpIn } from "../followUps/create";
import { closeJobIn, jobIn, moveJobIn } from "../jobs/states";
import { jobIdsOn } from "./jobsOn";
import { invoiceIn } from "./rows";

/**
 * Brings the jobs in line with their invoice's money: paid in full closes them and puts their follow-ups in the diary; money
 * that went back and leaves something due opens them again.
 */
export async function countPaidIn(tx: ShopTx, shop: ShopHandle, invoiceId: number): Promise<void> {
  const row = await invoiceIn(tx, invoiceId);
  if (row.state !== "issued" || row.takenBack) return;
  const left = outstanding({ ...row, credited: false });
  for (const jobId of await jobIdsOn(tx, row)) {
    if (left === 0) {
      await closeJobIn(tx, shop, jobId);
      await createFollowUpIn(tx, shop, jobId);
      continue;
    }
    const job = await jobIn(tx, jobId);
    if (left > 0 && job.state === "closed")
      await moveJobIn(tx, job, ["closed"], { state: "invoiced", closedAt: null });
  }
}
