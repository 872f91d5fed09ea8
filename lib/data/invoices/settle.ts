import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { outstanding } from "@/lib/domain/invoices/state";
import { createFollowUpIn } from "../followUps/create";
import { closeJobIn, jobIn, moveJobIn } from "../jobs/states";
import { invoiceIn } from "./rows";

/**
 * Brings the job in line with its invoice's money: paid in full closes it and puts its follow-up in the diary; money that
 * went back and leaves something due opens it again.
 */
export async function countPaidIn(tx: ShopTx, shop: ShopHandle, invoiceId: number): Promise<void> {
  const row = await invoiceIn(tx, invoiceId);
  if (row.state !== "issued" || row.creditedBy.length > 0 || row.jobId === null) return;
  const left = outstanding({ ...row, credited: false });
  if (left === 0) {
    await closeJobIn(tx, shop, row.jobId);
    await createFollowUpIn(tx, shop, row.jobId);
    return;
  }
  const job = await jobIn(tx, row.jobId);
  if (left > 0 && job.state === "closed")
    await moveJobIn(tx, job, ["closed"], { state: "invoiced", closedAt: null });
}
