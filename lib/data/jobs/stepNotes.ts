import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";

/** Writes something down at a step, for whoever works there next. It stays as written. */
export async function addStepNote(
  shop: ShopHandle,
  input: { stepId: number; text: string; key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "noted at a step", input, async () => {
      const step = await tx.step.findUnique({
        where: { id: input.stepId },
        select: { id: true, position: true, job: { select: { id: true, number: true, state: true } } },
      });
      if (!step) throw new Refusal("There is no such step.", "Open the card again.", {}, "missing");
      if (step.job.state === "closed" || step.job.state === "cancelled")
        throw new Refusal(
          `Job ${step.job.number} is over.`,
          "Write it in the bike's notes, where the next quote sees it.",
          {},
          "conflict",
        );
      const made = await tx.stepNote.create({
        data: { stepId: step.id, text: input.text, at: shop.now, staffId: shop.by.staffId },
        select: { id: true },
      });
      await audit(tx, shop, "noted", "job", step.job.id, { step: step.position });
      return made.id;
    }),
  );
}
