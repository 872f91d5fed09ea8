import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import type { LateSaid } from "@/lib/schemas/timeEntries";
import type { WaitReason } from "@/lib/schemas/waits";
import { zoneIn } from "../common/zone";
import { endWaitIn } from "./begun";
import { jobIn } from "./states";
import { stopOnJobIn } from "./time/end";

export interface WaitInput extends LateSaid {
  readonly jobId: number;
  readonly reason: WaitReason;
  /** A day of the shop. */
  readonly untilOn: string | null;
  readonly note: string;
  readonly key?: string | undefined;
}

/** Says that a job cannot go on, why, and until when. What was said before is over; the person's time on it stops. */
export async function setWait(shop: ShopHandle, input: WaitInput): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "said that a job waits", input, async () => {
      const job = await jobIn(tx, input.jobId);
      if (!["waiting", "booked", "inWork", "ride"].includes(job.state))
        throw new Refusal(
          `Job ${job.number} is over: it waits for nothing.`,
          "Look at the job as it is now.",
          {},
          "conflict",
        );
      if (input.untilOn !== null && input.untilOn < dayIn(await zoneIn(tx), shop.now))
        throw new Refusal("This day has passed.", "Name today or a later day, or leave it open.", {
          untilOn: "Name today or a later day.",
        });
      await endWaitIn(tx, shop, job.id);
      await stopOnJobIn(tx, shop, job.id, input);
      const { jobId, reason, untilOn, note } = input;
      const wait = await tx.jobWait.create({
        data: { jobId, reason, untilOn, note, at: shop.now, staffId: shop.by.staffId },
        select: { id: true },
      });
      await audit(tx, shop, "waits", "job", job.id, { reason, untilOn });
      return wait.id;
    }),
  );
}

/** The wait is over. Said again, it is refused: somebody else has said so, or work has begun. */
export async function endWait(shop: ShopHandle, input: { waitId: number }): Promise<void> {
  await shop.write(async (tx) => {
    const wait = await tx.jobWait.findUnique({ where: { id: input.waitId }, select: { jobId: true } });
    await demandOne(
      tx.jobWait.updateMany({
        where: { id: input.waitId, endedAt: null },
        data: { endedAt: shop.now },
      }),
      () => new Refusal("This wait is over already.", "Look at the job as it is now.", {}, "conflict"),
    );
    await audit(tx, shop, "waits no longer", "job", wait?.jobId ?? null);
  });
}
