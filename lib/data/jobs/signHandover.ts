import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { SignHandover } from "@/lib/schemas/handover";

/** Keeps with which name and strokes a finished bike was taken back; signed again, both stay and the newest counts. */
export async function signHandover(
  shop: ShopHandle,
  input: SignHandover & { key?: string | undefined },
): Promise<number> {
  const { jobId, signedBy, signature } = input;
  return shop.write((tx) =>
    once(tx, shop, "signed a handover", input, async () => {
      const job = await tx.job.findUnique({
        where: { id: jobId },
        select: { number: true, finishedAt: true, state: true },
      });
      if (!job) throw new Refusal("There is no such job.", "Open it from the list of jobs.", {}, "missing");
      if (job.finishedAt === null || job.state === "cancelled")
        throw new Refusal(
          `The work on job ${job.number} is not finished.`,
          "Finish it first.",
          {},
          "conflict",
        );
      const { id } = await tx.handoverSignature.create({
        data: { jobId, signedBy, signature, signedAt: shop.now, staffId: shop.by.staffId },
        select: { id: true },
      });
      await audit(tx, shop, "handed over", "job", jobId, { signedBy, drawn: signature !== "" });
      return id;
    }),
  );
}
