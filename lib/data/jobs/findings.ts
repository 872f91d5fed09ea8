import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { jobIn } from "./states";

/** Something noticed on the bike; it waits until it is noted or quoted. */
export async function addFinding(
  shop: ShopHandle,
  input: { jobId: number; stepId?: number | undefined; text: string; key?: string | undefined },
): Promise<{ findingId: number }> {
  return shop.write(async (tx) => ({
    findingId: await once(tx, shop, "noted a finding", input, async () => {
      const job = await jobIn(tx, input.jobId);
      if (job.state === "closed" || job.state === "cancelled")
        throw new Refusal(
          `Job ${job.number} is over.`,
          "Write it in the bike's notes, where the next quote sees it.",
        );
      if (input.stepId !== undefined) {
        const step = await tx.step.findUnique({ where: { id: input.stepId }, select: { jobId: true } });
        if (step?.jobId !== job.id)
          throw new Refusal("This step is not of this job.", "Open the card again.", {}, "missing");
      }
      const found = await tx.finding.create({
        data: {
          jobId: job.id,
          stepId: input.stepId ?? null,
          text: input.text,
          createdAt: shop.now,
          staffId: shop.by.staffId,
        },
        select: { id: true },
      });
      await audit(tx, shop, "found", "finding", found.id, { job: job.number });
      return found.id;
    }),
  }));
}

/** Nothing follows from a finding: it stays on the job as a note. */
export async function noteFinding(
  shop: ShopHandle,
  input: { findingId: number; version: number },
): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(
      tx.finding.updateMany({
        where: { id: input.findingId, state: "open", version: input.version },
        data: { state: "noted", version: { increment: 1 } },
      }),
      () =>
        new Refusal(
          "This finding was already dealt with by someone else.",
          "Look at the job again.",
          {},
          "conflict",
        ),
    );
    await audit(tx, shop, "noted", "finding", input.findingId);
  });
}

/** The words of a finding; null where there is none. */
export async function findingText(shop: ShopHandle, id: number | undefined): Promise<string | null> {
  if (id === undefined) return null;
  const found = await shop.read.finding.findUnique({ where: { id }, select: { text: true } });
  return found?.text ?? null;
}
