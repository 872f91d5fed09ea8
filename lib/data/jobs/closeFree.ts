import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { releaseIn } from "../stock/reservations";
import { demandVersion, jobIn, moveJobIn } from "./states";

/** Whether nobody is invoiced for a job: the shop's own bike, and a comeback that is charged nothing. */
export const isFree = (agreement: { kind: string; chargedBp: number } | null | undefined): boolean =>
  agreement != null && agreement.kind !== "word" && agreement.chargedBp === 0;

/** Closes a finished job that nobody is invoiced for. What it still held of the stock becomes free. */
export async function closeFree(
  shop: ShopHandle,
  input: { jobId: number; version: number; key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "closed a job without an invoice", input, async () => {
      const job = await jobIn(tx, input.jobId);
      demandVersion(job, input.version);
      const agreement = await tx.jobAgreement.findUnique({
        where: { jobId: job.id },
        select: { kind: true, chargedBp: true },
      });
      if (!isFree(agreement))
        throw new Refusal(`Job ${job.number} is to be paid for.`, "Invoice it.", {}, "conflict");
      await moveJobIn(tx, job, ["ready"], { state: "closed", closedAt: shop.now });
      await releaseIn(tx, shop, job.id);
      await audit(tx, shop, "closed without an invoice", "job", job.id);
      return job.id;
    }),
  );
}
