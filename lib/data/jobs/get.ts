import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import type { BillingUnit } from "@/lib/domain/labour/billing";
import { atGrades, sideBySide } from "@/lib/domain/labour/sideBySide";
import { bikeByPlate } from "../bikes/bikeName";
import { LIES } from "../stock/lying";
import { newestOf } from "../stock/replacements";
import { holdersIn, shortOf } from "../stock/shortages";
import { OPEN_WAIT } from "./begun";
import { partsOfJob } from "./madeParts";
import { needlesOfJob } from "./needles";
import { sheetsOfJob } from "./sheets";
import { onJobsNow } from "./time/onNow";
import { entryOf } from "./time/overrun";
import { wishOfJob } from "./wishes";

const DOCUMENT = {
  id: true,
  kind: true,
  written: true,
  state: true,
  grossMinor: true,
  prepaidMinor: true,
  paidMinor: true,
} as const;

const PAGE = {
  id: true,
  number: true,
  title: true,
  state: true,
  stopped: true,
  version: true,
  minutes: true,
  odometerKm: true,
  arrivedAt: true,
  startedAt: true,
  finishedAt: true,
  notes: true,
  bikeId: true,
  customer: { select: { id: true, name: true, phone: true, email: true, noLetters: true } },
  bike: {
    select: {
      plate: true,
      complaint: true,
      odometerKm: true,
      modelCard: { select: { make: true, model: true } },
    },
  },
  revision: { select: { quote: { select: { id: true, number: true } } } },
  agreement: {
    select: {
      kind: true,
      chargedBp: true,
      why: true,
      comebackOf: { select: { id: true, number: true, title: true } },
    },
  },
  yeses: {
    select: { id: true, saidBy: true, how: true, upToMinor: true, note: true, at: true },
    orderBy: { id: "desc" },
    take: 20,
  },
  steps: {
    select: {
      id: true,
      position: true,
      kind: true,
      key: true,
      name: true,
      access: true,
      minutes: true,
      grade: true,
      state: true,
      reason: true,
      version: true,
      notes: { select: { id: true, text: true }, orderBy: { id: "asc" }, take: 50 },
      holdPoints: {
        select: {
          name: true,
          kind: true,
          unit: true,
          passed: true,
          overrideReason: true,
          readings: { select: { value: true, inside: true }, orderBy: { id: "desc" }, take: 1 },
        },
        orderBy: { position: "asc" },
        take: 20,
      },
    },
    orderBy: { position: "asc" },
    take: 300,
  },
  waits: OPEN_WAIT,
  timeEntries: {
    select: {
      id: true,
      staffId: true,
      jobId: true,
      stepId: true,
      startedAt: true,
      endedAt: true,
      reason: true,
      staff: { select: { name: true } },
      corrections: {
        select: { id: true, fromStarted: true, fromEnded: true },
        orderBy: { id: "asc" },
        take: 5,
      },
    },
    orderBy: { id: "asc" },
    take: 500,
  },
  reservations: {
    where: { OR: [{ state: { not: "released" } }, { unusedWhy: { not: "" } }] },
    select: {
      id: true,
      stepId: true,
      wantedMilli: true,
      reservedMilli: true,
      usedMilli: true,
      state: true,
      unusedWhy: true,
      part: {
        select: {
          id: true,
          code: true,
          name: true,
          unit: true,
          bin: true,
          bins: LIES,
          onOrderMilli: true,
          replacedById: true,
        },
      },
    },
    orderBy: { id: "asc" },
    take: 200,
  },
  findings: {
    select: {
      id: true,
      text: true,
      state: true,
      version: true,
      createdAt: true,
      step: { select: { name: true } },
    },
    orderBy: { id: "desc" },
    take: 50,
  },
  rides: {
    select: {
      id: true,
      at: true,
      good: true,
      note: true,
      corrections: {
        where: { acceptedAt: { not: null } },
        select: { setting: true, fromValue: true, toValue: true },
        orderBy: { id: "asc" },
        take: 1,
      },
    },
    orderBy: { id: "desc" },
    take: 20,
  },
  bookings: {
    select: {
      id: true,
      startsAt: true,
      endsAt: true,
      state: true,
      bay: { select: { name: true } },
      staff: { select: { name: true } },
    },
    orderBy: { startsAt: "asc" },
    take: 20,
  },
  invoices: { select: DOCUMENT, orderBy: { id: "asc" }, take: 20 },
  alsoOn: { select: { invoice: { select: DOCUMENT } }, orderBy: { id: "asc" }, take: 20 },
  payments: {
    select: { id: true, kind: true, amountMinor: true, paidOn: true },
    orderBy: { id: "asc" },
    take: 50,
  },
  variations: { select: { id: true, number: true, state: true }, orderBy: { id: "asc" }, take: 20 },
  runAnswers: {
    select: { id: true, jobId: true, answer: true, words: true, at: true, seenAt: true },
    orderBy: { id: "desc" },
    take: 10,
  },
} satisfies Prisma.JobSelect;

export type JobView = NonNullable<Awaited<ReturnType<typeof getJob>>>;

/** Everything a job's page shows; null where there is no such job. */
export async function getJob(shop: ShopHandle, id: number) {
  const [row, settings, grades, wish, onNow] = await Promise.all([
    shop.read.job.findUnique({ where: { id }, select: PAGE }),
    shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { billingUnit: true } }),
    shop.read.labourGrade.findMany({ select: { code: true }, orderBy: { id: "asc" }, take: 50 }),
    wishOfJob(shop, id),
    onJobsNow(shop, [id]),
  ]);
  if (!row) return null;
  const { bike, revision, timeEntries, alsoOn, ...job } = row;
  const of = { id: row.id, bikeId: row.bikeId };
  const parts = row.reservations.map((one) => ({
    ...one,
    shortMilli: one.state === "held" ? shortOf(one) : 0,
  }));
  const missing = parts.flatMap(({ shortMilli, part }) => (shortMilli > 0 ? [part] : []));
  const [sheets, needles, described, reservations, newest] = await Promise.all([
    sheetsOfJob(shop.read, of),
    needlesOfJob(shop.read, of),
    partsOfJob(shop.read, of),
    Promise.all(
      parts.map(async (one) => ({
        ...one,
        reservedBy: one.shortMilli > 0 ? await holdersIn(shop.read, one.part.id, row.id) : [],
      })),
    ),
    newestOf(shop.read, missing),
  ]);
  const graded = atGrades(
    row.steps,
    grades.map((grade) => grade.code),
  );
  const unit: BillingUnit = settings.billingUnit === "tenths" ? "tenths" : "minutes";
  const documents = [...row.invoices, ...alsoOn.map((one) => one.invoice)];
  return {
    ...job,
    /** Its own and those that it shares with other jobs, oldest first. */
    invoices: documents.sort((one, two) => one.id - two.id),
    bike: { id: row.bikeId, name: bikeByPlate(bike), complaint: bike.complaint },
    /** The newest reading: of a ride or a sheet, where one came after the arrival. */
    bikeOdometerKm: bike.odometerKm,
    quote: revision.quote,
    wish,
    onNow,
    timeEntries,
    time: sideBySide(graded.steps, timeEntries.map(entryOf), unit, shop.now.getTime(), graded.main),
    /** Each with the part that took its place, where it is short and made no more. */
    reservations: reservations.map((one) => ({
      ...one,
      replacement: one.shortMilli > 0 ? (newest.get(one.part.id) ?? null) : null,
    })),
    sheets,
    needles,
    described,
    /** What kind of step is next; null when none is left. */
    nextKind: row.steps.find((step) => step.state === "todo")?.kind ?? null,
  };
}
