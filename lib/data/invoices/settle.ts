import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { outstanding } from "@/lib/domain/invoices/state";
import { createFollowUpIn } from "../followUps/create";
import { closeJobIn, jobIn, moveJobIn } from "../jobs/states";
import { jobIdsOn } from "./jobsOn";
import { invoiceIn } from "./rows";

/** Something was paid over what an invoice came to, and kept. */
const overpaidIn = async (tx: ShopTx, invoiceId: number): Promise<boolean> =>
  (await tx.payment.findFirst({
    where: { invoiceId, kind: "overpayment" },
    select: { id: true },
    orderBy: { id: "asc" },
  })) !== null;

/**
 * Brings the jobs in line with their invoice's money: paid in full closes them and puts their follow-ups in the diary; money
 * that went back and leaves something due opens them again.
 */
export async function countPaidIn(tx: ShopTx, shop: ShopHandle, invoiceId: number): Promise<void> {
  const row = await invoiceIn(tx, invoiceId);
  if (row.state !== "issued" || row.takenBack) return;
  const left = outstanding({ ...row, credited: false });
  for (const jobId of await jobIdsOn(tx, row)) {
    // What is over is the customer's balance: the job itself is paid.
    if (left === 0 || (left < 0 && (await overpaidIn(tx, row.id)))) {
      await closeJobIn(tx, shop, jobId);
      await createFollowUpIn(tx, shop, jobId);
      continue;
    }
    const job = await jobIn(tx, jobId);
    if (left > 0 && job.state === "closed")
      await moveJobIn(tx, job, ["closed"], { state: "invoiced", closedAt: null });
  }
}
