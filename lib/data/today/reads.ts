import type { ShopHandle } from "@/lib/db/shop";
import { depositLeftOf } from "@/lib/domain/invoices/held";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { FOR } from "../bookings/bookedFor";

const MOST = 8;
const GOING_ON = ["waiting", "booked", "inWork", "ride"] as const;
const NAMED = {
  id: true,
  number: true,
  title: true,
  state: true,
  stopped: true,
  arrivedAt: true,
  customer: { select: { name: true, phone: true } },
  bike: { select: { plate: true, modelCard: { select: { make: true, model: true } } } },
} as const;

/** The bookings of one day, at most of two weeks' length. */
export function bookingsBetween(shop: ShopHandle, begins: Date, ends: Date) {
  return shop.read.booking.findMany({
    where: {
      // Named, so that the index of state and beginning is walked: "not" would look at every booking there ever was.
      state: { in: ["held", "done"] },
      startsAt: { lt: ends, gt: new Date(begins.getTime() - 14 * 86_400_000) },
      endsAt: { gt: begins },
    },
    select: {
      id: true,
      bayId: true,
      startsAt: true,
      endsAt: true,
      dropOffAt: true,
      arrivedAt: true,
      expectedAt: true,
      state: true,
      staff: { select: { name: true } },
      ...FOR,
      job: { select: NAMED },
    },
    orderBy: { startsAt: "asc" },
    take: 60,
  });
}

export function liveJobs(shop: ShopHandle) {
  return shop.read.job.findMany({
    where: {
      OR: [{ state: { in: ["waiting", "ride", "ready"] } }, { state: "inWork", stopped: { not: "" } }],
    },
    select: NAMED,
    orderBy: { id: "asc" },
    take: 60,
  });
}

export function shortReservations(shop: ShopHandle) {
  return shop.read.reservation.findMany({
    where: {
      state: "held",
      wantedMilli: { gt: shop.read.reservation.fields.reservedMilli },
      job: { state: { in: ["waiting", "booked", "inWork", "ride"] } },
    },
    select: {
      wantedMilli: true,
      reservedMilli: true,
      usedMilli: true,
      part: { select: { id: true, code: true, name: true, unit: true, onOrderMilli: true } },
      job: { select: NAMED },
    },
    orderBy: { id: "asc" },
    take: 60,
  });
}

export function openFindings(shop: ShopHandle) {
  return shop.read.finding.findMany({
    where: { state: "open", job: { state: { in: ["inWork", "ride", "ready"] } } },
    select: { id: true, text: true, job: { select: { id: true, number: true, bikeId: true } } },
    orderBy: { id: "desc" },
    take: MOST,
  });
}

/** Jobs that wait for something, the one that should go on first at the top. */
export function openWaits(shop: ShopHandle) {
  return shop.read.jobWait.findMany({
    where: { endedAt: null, job: { state: { in: [...GOING_ON] } } },
    select: { id: true, reason: true, untilOn: true, note: true, job: { select: NAMED } },
    orderBy: [{ untilOn: "asc" }, { id: "asc" }],
    take: MOST * 2,
  });
}

/** Jobs handed to whoever looks that they have not begun. */
export function handedToMe(shop: ShopHandle) {
  return shop.read.jobHandOver.findMany({
    where: { toId: shop.by.staffId ?? 0, takenAt: null, job: { state: { in: [...GOING_ON] } } },
    select: { id: true, note: true, fromId: true, job: { select: NAMED } },
    orderBy: { id: "desc" },
    take: MOST,
  });
}

/** Variations that hold up a job that is going on: without an answer, run out, or declined while work is still done. */
export function openVariations(shop: ShopHandle) {
  return shop.read.quote.findMany({
    where: {
      variationOfId: { not: null },
      OR: [
        { state: { in: ["sent", "expired"] }, variationOf: { state: { in: [...GOING_ON, "ready"] } } },
        { state: "declined", variationOf: { state: { in: [...GOING_ON] } } },
      ],
    },
    select: {
      id: true,
      number: true,
      title: true,
      state: true,
      validUntil: true,
      declineReason: true,
      customer: { select: { name: true, phone: true } },
      variationOf: { select: { number: true } },
    },
    orderBy: { id: "asc" },
    take: MOST,
  });
}

/** Sent quotes for a bike still open, or run out within the last fortnight: later than that nobody waits for them. */
export function sentQuotes(shop: ShopHandle, day: string) {
  return shop.read.quote.findMany({
    where: {
      state: { in: ["sent", "expired"] },
      variationOfId: null,
      validUntil: { gte: dayAfter(day, -14) },
    },
    select: {
      id: true,
      number: true,
      title: true,
      grossMinor: true,
      sentAt: true,
      validUntil: true,
      customer: { select: { name: true } },
    },
    orderBy: { id: "asc" },
    take: MOST,
  });
}

/** A job stays "invoiced" until it is paid, so this looks at unpaid invoices alone. */
export function lateInvoices(shop: ShopHandle, day: string) {
  return shop.read.invoice.findMany({
    where: {
      state: "issued",
      kind: "invoice",
      dueOn: { lt: day },
      job: { state: "invoiced" },
      takenBack: false,
    },
    select: {
      id: true,
      written: true,
      dueOn: true,
      grossMinor: true,
      prepaidMinor: true,
      paidMinor: true,
      customer: { select: { name: true } },
    },
    orderBy: { id: "asc" },
    take: MOST,
  });
}

/** Letters to customers that could not be sent in the last fortnight: later than that they are old news. */
export function failedLetters(shop: ShopHandle) {
  return shop.read.mail.findMany({
    where: {
      state: "failed",
      letter: { not: "" },
      createdAt: { gt: new Date(shop.now.getTime() - 14 * 86_400_000) },
    },
    select: { id: true, to: true, subject: true, failure: true },
    orderBy: { id: "desc" },
    take: MOST,
  });
}

/** Cancelled jobs that the shop still holds money of, oldest first. */
export async function moneyToGiveBack(shop: ShopHandle) {
  const jobs = await shop.read.job.findMany({
    where: { state: "cancelled", payments: { some: {} } },
    select: {
      ...NAMED,
      payments: {
        select: { kind: true, amountMinor: true, roundingMinor: true },
        orderBy: { id: "asc" },
        take: 50,
      },
    },
    orderBy: { id: "desc" },
    take: 60,
  });
  return jobs
    .map(({ payments, ...job }) => ({ job, depositLeftMinor: depositLeftOf(payments) }))
    .filter((one) => one.depositLeftMinor > 0)
    .slice(0, MOST);
}

/** The drawer of main jets with the most reserved of it. Families are named by the shop. */
export async function mainJets(shop: ShopHandle) {
  const rows = await shop.read.part.findMany({
    where: { kind: "jet", active: true, sizeMilli: { not: null }, family: { not: "" } },
    select: {
      id: true,
      code: true,
      family: true,
      sizeMilli: true,
      onHandMilli: true,
      reservedMilli: true,
      onOrderMilli: true,
      pointMilli: true,
    },
    orderBy: [{ family: "asc" }, { sizeMilli: "asc" }],
    take: 300,
  });
  const families = Map.groupBy(rows, (row) => row.family);
  const reserved = (sizes: typeof rows) => sizes.reduce((sum, size) => sum + size.reservedMilli, 0);
  const best = [...families]
    .sort(([, a], [, b]) => reserved(b) - reserved(a))
    .sort(([a], [b]) => Number(/main/i.test(b)) - Number(/main/i.test(a)))[0];
  return best ? { family: best[0], sizes: best[1] } : null;
}
