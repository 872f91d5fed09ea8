import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { JobState } from "@/lib/schemas/jobs";
import { JOB_WORDS } from "@/lib/schemas/jobWords";
import { keepOdometerIn } from "../bikes/odometer";
import { releaseIn } from "../stock/reservations";
import { begunIn } from "./begun";

interface StateOfJob {
  readonly id: number;
  readonly number: string;
  readonly state: JobState;
  readonly version: number;
  readonly arrivedAt: Date | null;
  readonly bikeId: number;
}

/** One job as a write decides about it. */
export async function jobIn(
  tx: ShopTx,
  jobId: number,
): Promise<StateOfJob & { stopped: string; startedAt: Date | null }> {
  const job = await tx.job.findUnique({
    where: { id: jobId },
    select: {
      id: true,
      number: true,
      state: true,
      version: true,
      arrivedAt: true,
      bikeId: true,
      stopped: true,
      startedAt: true,
    },
  });
  if (!job) throw new Refusal("There is no such job.", "Open it from the list of jobs.", {}, "missing");
  return job;
}

/** Refuses a form that was drawn before someone else changed the job. */
export function demandVersion(job: StateOfJob, version: number): void {
  if (job.version === version) return;
  throw new Refusal(
    `Job ${job.number} was changed by someone else: it is now ${JOB_WORDS[job.state].word}.`,
    "Nothing of yours was saved. Look at the job as it is now, then do it again.",
    {},
    "conflict",
  );
}

/** Moves a job from one of `from`; the guard stands in the write. */
export async function moveJobIn(
  tx: ShopTx,
  job: Pick<StateOfJob, "id" | "number" | "state" | "version">,
  from: readonly JobState[],
  data: Parameters<ShopTx["job"]["updateMany"]>[0]["data"],
): Promise<void> {
  if (!from.includes(job.state))
    throw new Refusal(
      `Job ${job.number} is ${JOB_WORDS[job.state].word}.`,
      `This can be done while it is ${from.map((state) => JOB_WORDS[state].word).join(" or ")}.`,
      {},
      "conflict",
    );
  await demandOne(
    tx.job.updateMany({
      where: { id: job.id, state: job.state, version: job.version },
      data: { ...data, version: { increment: 1 } },
    }),
    () =>
      new Refusal(
        `Job ${job.number} has just been changed by someone else.`,
        "Look at it again, then do it once more.",
        {},
        "conflict",
      ),
  );
}

const over = (job: StateOfJob) =>
  new Refusal(
    `Job ${job.number} is ${JOB_WORDS[job.state].word}: nothing more is done on it.`,
    "Work that came later is a new quote.",
    {},
    "conflict",
  );

/** A booking was made for the job. A job that is already on the floor stays where it is. */
export async function markBookedIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const job = await jobIn(tx, jobId);
  if (job.state === "cancelled" || job.state === "closed") throw over(job);
  if (job.state !== "waiting") return;
  await moveJobIn(tx, job, ["waiting"], { state: "booked" });
  await audit(tx, shop, "booked", "job", jobId);
}

/** The last booking of the job was taken back. */
export async function markUnbookedIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const job = await jobIn(tx, jobId);
  if (job.state !== "booked") return;
  await moveJobIn(tx, job, ["booked"], { state: "waiting" });
  await audit(tx, shop, "booking taken back", "job", jobId);
}

/** The job's invoice was issued. */
export async function markInvoicedIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const job = await jobIn(tx, jobId);
  if (job.state === "invoiced" || job.state === "closed") return;
  await moveJobIn(tx, job, ["ready"], { state: "invoiced" });
  await audit(tx, shop, "invoiced", "job", jobId);
}

/** The job's invoice is paid in full. What the job still held of the stock becomes free. */
export async function closeJobIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const job = await jobIn(tx, jobId);
  if (job.state === "closed") return;
  await moveJobIn(tx, job, ["invoiced"], { state: "closed", closedAt: shop.now });
  await releaseIn(tx, shop, jobId);
  await audit(tx, shop, "closed", "job", jobId);
}

export interface ArriveInput {
  jobId: number;
  version: number;
  odometerKm: number | null;
  odometerRight?: boolean | undefined;
  key?: string | undefined;
}

/** The bike stands in the shop. */
export async function arriveJob(shop: ShopHandle, input: ArriveInput): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "took a bike in", input, async () => {
      const job = await jobIn(tx, input.jobId);
      if (job.arrivedAt)
        throw new Refusal(
          `The bike of job ${job.number} is already here.`,
          "Look at the job as it is now.",
          {},
          "conflict",
        );
      demandVersion(job, input.version);
      await keepOdometerIn(tx, shop, job.bikeId, input);
      await moveJobIn(tx, job, ["waiting", "booked"], { arrivedAt: shop.now, odometerKm: input.odometerKm });
      await audit(tx, shop, "arrived", "job", job.id, { odometerKm: input.odometerKm });
      return job.id;
    }),
  );
}

/** The first step or the first minute puts a job in work; later ones leave it. */
export async function startWorkIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const job = await jobIn(tx, jobId);
  await begunIn(tx, shop, jobId);
  if (job.state === "inWork" || job.state === "ride") return;
  if ((job.state === "waiting" || job.state === "booked") && !job.arrivedAt)
    throw new Refusal(
      `The bike of job ${job.number} has not arrived.`,
      "Record the arrival with the odometer first: it is one tap on the job's page.",
    );
  if (job.state === "ready") return goOnIn(tx, shop, job);
  if (job.state !== "waiting" && job.state !== "booked") throw over(job);
  await moveJobIn(tx, job, ["waiting", "booked"], { state: "inWork", startedAt: shop.now });
  await audit(tx, shop, "started", "job", jobId);
}

/** A ready job goes back into work only where a variation has added steps to it. */
async function goOnIn(tx: ShopTx, shop: ShopHandle, job: StateOfJob): Promise<void> {
  const more = await tx.step.findFirst({
    where: { jobId: job.id, state: "todo" },
    select: { id: true },
    orderBy: { position: "asc" },
  });
  if (!more) throw over(job);
  await moveJobIn(tx, job, ["ready"], { state: "inWork", finishedAt: null });
  await audit(tx, shop, "work goes on", "job", job.id);
}
