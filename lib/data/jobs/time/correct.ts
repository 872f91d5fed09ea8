import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { may, ROLES, type Role } from "@/lib/domain/access/permissions";
import { corrected } from "@/lib/domain/labour/entries";
import { Refusal } from "@/lib/domain/refusal";
import type { CorrectTimeInput } from "@/lib/schemas/timeEntries";
import { instantOfField } from "./clock";
import { ENTRY, entryOf } from "./overrun";
import { RUNNING, type Running } from "./running";

const DAY = 86_400_000;
const ROW = { ...RUNNING, job: { select: { state: true, number: true } } } as const;

/** Times put right by hand, with a reason: one's own, or anyone's by those who may correct time. */
export async function correctTime(
  shop: ShopHandle,
  input: CorrectTimeInput & { key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "corrected a time", input, async () => {
      const row = await tx.timeEntry.findUnique({ where: { id: input.entryId }, select: ROW });
      if (!row) throw new Refusal("There is no such time entry.", "Open the job again.", {}, "missing");
      if (row.staffId !== shop.by.staffId && !mayCorrect(shop.by.role))
        throw new Refusal(
          "This is someone else's time.",
          "Ask them, or an owner, to correct it.",
          {},
          "forbidden",
        );
      if (row.version !== input.version)
        throw new Refusal(
          "This time was changed by someone else.",
          "Look at it as it is now, then correct it.",
          {},
          "conflict",
        );
      if (row.job.state === "closed")
        throw new Refusal(
          `Job ${row.job.number} is closed.`,
          "Its time stays as it was invoiced.",
          {},
          "conflict",
        );
      const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
      await correctIn(tx, shop, row, {
        startedAt: instantOfField(input.startedAt, zone, "startedAt"),
        endedAt: instantOfField(input.endedAt, zone, "endedAt"),
        reason: input.reason,
      });
      return row.id;
    }),
  );
}

/** Puts the times of an entry right, and keeps what stood there; never over other time of the same person. */
export async function correctIn(
  tx: ShopTx,
  shop: ShopHandle,
  row: Running,
  to: { readonly startedAt: Date; readonly endedAt: Date; readonly reason: string },
): Promise<void> {
  const { startedAt, endedAt, reason } = to;
  const others = await tx.timeEntry.findMany({
    where: {
      staffId: row.staffId,
      id: { not: row.id },
      startedAt: { gt: new Date(startedAt.getTime() - 3 * DAY), lt: endedAt },
    },
    select: ENTRY,
    orderBy: { startedAt: "desc" },
    take: 500,
  });
  const times = { startedAt: startedAt.getTime(), endedAt: endedAt.getTime(), reason };
  corrected(entryOf(row), times, others.map(entryOf), shop.now.getTime());
  await demandOne(
    tx.timeEntry.updateMany({
      where: { id: row.id, version: row.version },
      data: { startedAt, endedAt, reason, version: { increment: 1 } },
    }),
    () => new Refusal("This time was changed by someone else.", "Look at it again.", {}, "conflict"),
  );
  await tx.timeCorrection.create({
    data: {
      entryId: row.id,
      at: shop.now,
      staffId: shop.by.staffId,
      reason,
      fromStarted: row.startedAt,
      fromEnded: row.endedAt,
      toStarted: startedAt,
      toEnded: endedAt,
    },
    select: { id: true },
  });
  await audit(tx, shop, "time corrected", "timeEntry", row.id, {
    reason,
    from: [row.startedAt.toISOString(), row.endedAt?.toISOString() ?? null],
    to: [startedAt.toISOString(), endedAt.toISOString()],
  });
}

export const mayCorrect = (role: string): boolean =>
  ROLES.some((one) => one === role) && may(role as Role, "time.correct");
