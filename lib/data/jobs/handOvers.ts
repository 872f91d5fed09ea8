import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { may, ROLES, type Role } from "@/lib/domain/access/permissions";
import { Refusal } from "@/lib/domain/refusal";
import type { LateSaid } from "@/lib/schemas/timeEntries";
import { jobIn } from "./states";
import { stopOnJobIn } from "./time/end";

const WHO_WORK = ROLES.filter((role) => may(role, "job.work"));

/** Those of the shop who work on jobs, but for whoever looks: a job can be handed over to them. */
export async function othersWhoWork(shop: ShopHandle): Promise<{ id: number; name: string }[]> {
  return shop.read.staff.findMany({
    where: {
      active: true,
      role: { in: WHO_WORK },
      ...(shop.by.staffId === null ? {} : { id: { not: shop.by.staffId } }),
    },
    select: { id: true, name: true },
    orderBy: { name: "asc" },
    take: 60,
  });
}

export interface HandOverInput extends LateSaid {
  readonly jobId: number;
  readonly toId: number;
  readonly note: string;
  readonly key?: string | undefined;
}

/** Gives a job to another person, with a word on where it stands; the giver's time on it stops. Bookings stay as they are. */
export async function handOver(shop: ShopHandle, input: HandOverInput): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "handed a job over", input, async () => {
      const job = await jobIn(tx, input.jobId);
      if (!["waiting", "booked", "inWork", "ride"].includes(job.state))
        throw new Refusal(
          `Job ${job.number} is over: there is nothing to hand over.`,
          "Look at the job as it is now.",
          {},
          "conflict",
        );
      const to = await tx.staff.findUnique({
        where: { id: input.toId },
        select: { id: true, role: true, active: true },
      });
      if (!to?.active || !may(to.role as Role, "job.work") || to.id === shop.by.staffId)
        throw new Refusal("This person cannot go on with it.", "Choose somebody else who works on jobs.", {
          toId: "Choose somebody else.",
        });
      await stopOnJobIn(tx, shop, job.id, input);
      const { jobId, toId, note } = input;
      const made = await tx.jobHandOver.create({
        data: { jobId, toId, note, fromId: shop.by.staffId, at: shop.now },
        select: { id: true },
      });
      await audit(tx, shop, "handed over", "job", job.id, { toId });
      return made.id;
    }),
  );
}
