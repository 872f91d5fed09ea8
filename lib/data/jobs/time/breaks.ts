import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { endIn, type Said } from "./end";
import { startTimeIn } from "./run";
import { runningIn, whoWorks } from "./running";

/** A person stops for a break; what their time ran on is kept with it, to go on with. */
export async function takeBreak(
  shop: ShopHandle,
  input: Said & { entryId: number; key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "took a break", input, async () => {
      const staffId = whoWorks(shop);
      const running = await runningIn(tx, staffId);
      if (running?.id !== input.entryId)
        throw new Refusal("This time does not run any more.", "Look at the job again.", {}, "conflict");
      await endIn(tx, shop, running, input);
      const { jobId, stepId } = running;
      const { id } = await tx.timeBreak.create({
        data: { staffId, jobId, stepId, startedAt: shop.now },
        select: { id: true },
      });
      await audit(tx, shop, "break began", "timeEntry", running.id);
      return id;
    }),
  );
}

/** The break is over: time runs again where it ran, on the step that is next there, unless that job is finished meanwhile. */
export async function endBreak(
  shop: ShopHandle,
  input: { breakId: number; key?: string | undefined },
): Promise<{ started: boolean }> {
  return shop.write(async (tx) => {
    const found = await tx.timeBreak.findUnique({
      where: { id: input.breakId },
      select: { staffId: true, jobId: true, stepId: true, version: true, job: { select: { state: true } } },
    });
    if (found?.staffId !== whoWorks(shop))
      throw new Refusal("There is no such break of yours.", "Look at Today again.", {}, "missing");
    const started = found.job.state === "inWork" || found.job.state === "ride";
    await once(tx, shop, "ended a break", input, async () => {
      await demandOne(
        tx.timeBreak.updateMany({
          where: { id: input.breakId, endedAt: null, version: found.version },
          data: { endedAt: shop.now, version: { increment: 1 } },
        }),
        () => new Refusal("This break is over already.", "Look at Today again.", {}, "conflict"),
      );
      if (started) await startTimeIn(tx, shop, { jobId: found.jobId, stepId: await stepToGoOnIn(tx, found) });
      return input.breakId;
    });
    return { started };
  });
}

/** The step that time ran on, or the next one where it is passed by now. */
async function stepToGoOnIn(
  tx: ShopTx,
  { jobId, stepId }: { jobId: number; stepId: number | null },
): Promise<number | undefined> {
  if (stepId === null) return undefined;
  const todo = await tx.step.findMany({
    where: { jobId, state: "todo" },
    select: { id: true },
    orderBy: { position: "asc" },
    take: 500,
  });
  return (todo.find((step) => step.id === stepId) ?? todo[0])?.id;
}

/** A break that lasts. */
export interface OpenBreak {
  readonly id: number;
  readonly staff: string;
  readonly own: boolean;
  readonly startedAt: string;
  readonly jobId: number;
  readonly jobNumber: string;
}

/** Who is on a break since today, on the shop's clock or in the last half day. */
export async function openBreaks(shop: ShopHandle): Promise<OpenBreak[]> {
  const rows = await shop.read.timeBreak.findMany({
    where: { endedAt: null, startedAt: { gt: breaksSince(shop) } },
    select: {
      id: true,
      staffId: true,
      startedAt: true,
      jobId: true,
      staff: { select: { name: true } },
      job: { select: { number: true } },
    },
    orderBy: { id: "asc" },
    take: 20,
  });
  return rows.map((row) => ({
    id: row.id,
    staff: row.staff.name,
    own: row.staffId === shop.by.staffId,
    startedAt: row.startedAt.toISOString(),
    jobId: row.jobId,
    jobNumber: row.job.number,
  }));
}

/** A break that lasted longer was going home (judgement). */
const HALF_DAY_MS = 12 * 3_600_000;

/** After when a break has begun that still lasts. */
export const breaksSince = (shop: Pick<ShopHandle, "now">): Date =>
  new Date(shop.now.getTime() - HALF_DAY_MS);

const GOING_ON = ["waiting" as const, "booked" as const, "inWork" as const, "ride" as const];

/** Jobs that whoever looks worked on last and can switch to, newest first, without what their time runs on. */
export async function jobsToSwitchTo(shop: ShopHandle, most = 3) {
  if (shop.by.staffId === null) return [];
  const rows = await shop.read.timeEntry.findMany({
    where: {
      staffId: shop.by.staffId,
      job: { state: { in: GOING_ON }, arrivedAt: { not: null }, waits: { none: { endedAt: null } } },
    },
    select: { endedAt: true, job: { select: { id: true, number: true, title: true } } },
    orderBy: { startedAt: "desc" },
    take: 60,
  });
  const on = rows.find((row) => row.endedAt === null)?.job.id;
  const jobs = new Map(rows.map((row) => [row.job.id, row.job]));
  return [...jobs.values()].filter((job) => job.id !== on).slice(0, most);
}
