import type { Chance } from "@/demo/work/chance";
import { acceptQuote } from "@/lib/data/acceptance/accept";
import { book } from "@/lib/data/bookings/book";
import { firstTimes } from "@/lib/data/bookings/times";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { getCard } from "@/lib/data/jobs/card";
import { finishJob } from "@/lib/data/jobs/finish";
import { passStep } from "@/lib/data/jobs/pass";
import { draftOf } from "@/lib/data/jobs/sheets";
import { arriveJob } from "@/lib/data/jobs/states";
import { startTime } from "@/lib/data/jobs/time/run";
import { recordDeposit, recordPayment } from "@/lib/data/payments/record";
import { sendQuote } from "@/lib/data/quotes/send";
import { addLine, discountLine } from "@/lib/data/quotes/terms";
import { chooseOptions, createQuote } from "@/lib/data/quotes/write";
import { acceptCorrection } from "@/lib/data/rides/accept";
import { recordRide } from "@/lib/data/rides/record";
import type { ShopHandle } from "@/lib/db/shop";
import { instantOf } from "@/lib/domain/schedule/localTime";
import type { RideObservation } from "@/lib/schemas/rides";
import { ORIGIN } from "../quotes";
import { dayAfter } from "./readInvoice";

const MONDAY = "2026-11-30";

/** A shop in the course of some days: its clock, and chance with a seed. `first` is the day on which it begins. */
export class Bench {
  private ms: number;

  constructor(
    private made: ShopHandle,
    private readonly zone: string,
    readonly chance: Chance,
    private readonly first = MONDAY,
  ) {
    this.ms = instantOf(first, "08:00", zone);
  }

  get shop(): ShopHandle {
    return { ...this.made, now: new Date(this.ms) };
  }

  get today(): string {
    return dayAfter(this.first, this.day);
  }

  /** Somebody else works from here on. */
  hands(staffId: number): void {
    this.made = { ...this.made, by: { ...this.made.by, staffId } };
  }

  private day = 0;

  morning(day: number): void {
    this.day = day;
    this.ms = instantOf(dayAfter(this.first, day), "08:00", this.zone);
  }

  /** Minutes go by, and some odd seconds. */
  pass(minutes: number): void {
    this.ms += minutes * 60_000 + this.chance.between(0, 59_999);
  }
}

export interface Wish {
  readonly bikeId: number;
  readonly packageId: number;
  readonly take?: readonly string[];
  readonly leave?: readonly string[];
  readonly lines?: readonly {
    readonly kind: "text" | "outside";
    readonly name: string;
    readonly price: string;
  }[];
  readonly off?: readonly { readonly line: string; readonly percent: number }[];
  readonly variationOfId?: number;
  readonly findingId?: number;
}

/** A quote written and sent; answers its revision. */
export async function quote(bench: Bench, wish: Wish): Promise<{ quoteId: number; revisionId: number }> {
  const { bikeId, packageId, variationOfId, findingId, take = [], leave = [] } = wish;
  const id = await createQuote(bench.shop, { bikeId, packageId, variationOfId, findingId });
  const version = async () => (await bench.shop.read.quote.findUniqueOrThrow({ where: { id } })).version;
  if (take.length + leave.length > 0) {
    const row = await bench.shop.read.quoteRevision.findFirstOrThrow({ where: { quoteId: id } });
    const kept = (row.choices as string[]).filter((key) => !leave.includes(key));
    await chooseOptions(bench.shop, {
      id,
      version: await version(),
      choices: [...kept, ...take],
      touched: take[0] ?? "",
    });
  }
  for (const line of wish.lines ?? [])
    await addLine(bench.shop, {
      id,
      version: await version(),
      ...line,
      cost: line.kind === "outside" ? "10" : "",
    });
  for (const { line, percent } of wish.off ?? [])
    await discountLine(bench.shop, {
      id,
      version: await version(),
      line,
      percent: percent * 100,
      why: "Agreed",
    });
  bench.pass(10);
  const { revisionId } = await sendQuote(bench.shop, { id, version: await version(), origin: ORIGIN });
  return { quoteId: id, revisionId };
}

/** The customer's yes; answers the job. */
export async function yes(bench: Bench, revisionId: number): Promise<number> {
  bench.pass(15);
  const row = await bench.shop.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
  const { acknowledgements } = row.frozen as unknown as { acknowledgements: readonly { key: string }[] };
  const { jobId } = await acceptQuote(bench.shop, {
    revisionId,
    typedName: "Ines Valdborg",
    acknowledgements: acknowledgements.map((one) => one.key),
    shownHash: row.hash ?? "",
    agent: "test browser",
  });
  return jobId;
}

export async function bookFirst(bench: Bench, jobId: number): Promise<void> {
  const { times } = await firstTimes(bench.shop, jobId, 1);
  const [time] = times;
  if (!time) throw new Error(`No time was offered for job ${jobId}.`);
  await book(bench.shop, {
    jobId,
    bayId: time.bayId,
    staffId: time.staffId,
    startsAt: new Date(time.startsAt),
  });
}

const versionOf = async (bench: Bench, jobId: number) =>
  (await bench.shop.read.job.findUniqueOrThrow({ where: { id: jobId } })).version;

export async function arrive(bench: Bench, jobId: number, odometerKm: number | null): Promise<void> {
  await arriveJob(bench.shop, { jobId, version: await versionOf(bench, jobId), odometerKm });
}

/**
 * Works a card, `most` steps of it or all but the ride, with time running unless it is not `timed`. A part named in `not` is said
 * not to have been used.
 */
export async function work(
  bench: Bench,
  jobId: number,
  { most = 99, not, timed = true }: { most?: number; not?: string; timed?: boolean } = {},
): Promise<void> {
  for (let done = 0; done < most; done++) {
    const card = await getCard(bench.shop, jobId);
    const step = card?.steps.find((one) => one.state === "todo" && one.kind !== "ride");
    if (!step) return;
    if (timed) await startTime(bench.shop, { jobId, stepId: step.id });
    bench.pass(Math.max(1, Math.round((step.minutes * bench.chance.between(60, 120)) / 100)));
    const ids = (kind: string) => step.holdPoints.filter((hold) => hold.kind === kind).map((hold) => hold.id);
    await passStep(bench.shop, {
      stepId: step.id,
      version: step.version,
      readings: step.holdPoints
        .filter((hold) => hold.kind === "reading" && !hold.passed)
        .map(({ id, low, high, increment }) => {
          const by = increment ?? 1;
          const count = Math.floor(((high ?? 0) - (low ?? 0)) / by + 1e-9);
          return { holdPointId: id, value: (low ?? 0) + by * bench.chance.between(0, count) };
        }),
      checks: ids("check"),
      signatures: ids("signature"),
      parts: step.parts
        .filter((part) => part.state === "held")
        .map((part) => ({
          reservationId: part.id,
          used: part.part.code !== not,
          why: part.part.code === not ? "The old one is as new" : "",
        })),
    });
  }
}

/** A ride; what was felt brings its first correction, which is worked. */
export async function ride(
  bench: Bench,
  jobId: number,
  odometerKm: number | null,
  felt: readonly RideObservation[] = [],
): Promise<void> {
  bench.pass(bench.chance.between(15, 25));
  const { rideId } = await recordRide(bench.shop, {
    jobId,
    version: await versionOf(bench, jobId),
    good: felt.length === 0 ? "yes" : "no",
    odometerKm,
    note: "",
    observations: [...felt],
  });
  if (felt.length === 0) return;
  const correction = await bench.shop.read.correction.findFirstOrThrow({
    where: { rideId },
    orderBy: { rank: "asc" },
  });
  await acceptCorrection(bench.shop, {
    correctionId: correction.id,
    version: await versionOf(bench, jobId),
    lambda: correction.needs ? 0.82 : null,
  });
  await work(bench, jobId);
}

export const IDLE = 1_400;

/** Finishes a job with the as-left sheet as it is offered, but for `left`, the idle speed as the card measured it. */
export async function finish(
  bench: Bench,
  jobId: number,
  odometerKm: number | null,
  left: Readonly<Record<string, number>> = {},
): Promise<void> {
  bench.pass(5);
  const job = await bench.shop.read.job.findUniqueOrThrow({ where: { id: jobId } });
  const values: Record<string, Record<string, number>> = {};
  const draft = await draftOf(bench.shop, job.bikeId, jobId, "asLeft");
  for (const one of draft) values[one.carburettor] = { ...values[one.carburettor], [one.setting]: one.value };
  const measured = draft.find((one) => one.setting === "idleSpeedRpm" && one.how === "measured")?.value;
  values[1] = { ...values[1], idleSpeedRpm: measured ?? IDLE, ...left };
  const { version } = job;
  await finishJob(bench.shop, {
    jobId,
    version,
    values,
    hows: {},
    rest: "read",
    odometerKm,
    cautions: "on",
    note: "",
  });
}

export async function invoice(bench: Bench, jobId: number, basis: "fixed" | "asWorked"): Promise<number> {
  bench.pass(5);
  const id = await draftInvoice(bench.shop, { jobId, basis });
  const { version, grossMinor } = await bench.shop.read.invoice.findUniqueOrThrow({ where: { id } });
  return issueInvoice(bench.shop, { id, version, shownMinor: grossMinor });
}

export async function deposit(bench: Bench, jobId: number, amountMinor: number): Promise<void> {
  await recordDeposit(bench.shop, { jobId, amountMinor, method: "card", paidOn: bench.today });
}

export async function payByCard(bench: Bench, invoiceId: number, amountMinor: number): Promise<void> {
  bench.pass(2);
  await recordPayment(bench.shop, { invoiceId, amountMinor, method: "card", paidOn: bench.today });
}

/** Pays what is left in coins: to the nearest of `coin`. */
export async function payInCash(bench: Bench, invoiceId: number, coin: number): Promise<void> {
  bench.pass(2);
  const { grossMinor, prepaidMinor, paidMinor } = await bench.shop.read.invoice.findUniqueOrThrow({
    where: { id: invoiceId },
  });
  const left = grossMinor - prepaidMinor - paidMinor;
  const amountMinor = Math.floor(left / coin + 0.5) * coin;
  await recordPayment(bench.shop, { invoiceId, amountMinor, method: "cash", paidOn: bench.today });
}
