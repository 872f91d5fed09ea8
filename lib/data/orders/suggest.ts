import type { ShopHandle } from "@/lib/db/shop";
import type { Reason } from "@/lib/domain/reason";
import { dayWords } from "@/lib/domain/schedule/days";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { type Suggested, suggestOrder } from "@/lib/domain/stock/suggest";
import { quantityText } from "@/lib/schemas/quantity";
import { fetched } from "../common/chunks";
import { clockIn } from "../common/zone";
import { policiesOf } from "../stock/habits";
import { newestOf } from "../stock/replacements";
import { shortOf } from "../stock/shortages";
import { NOBODY } from "./suppliers";

export interface SuggestedLine extends Suggested {
  partId: number;
  code: string;
  name: string;
  unit: string;
  jobNumber: string | null;
  /** The day it would come if it were ordered today; null while nobody knows. */
  leadDays: number | null;
  costE4: number | null;
}

export interface SuggestedOrder {
  /** Null while nobody is named for these parts. */
  supplierId: number | null;
  supplier: string;
  lines: SuggestedLine[];
}

/** What to order, by supplier: what jobs wait for first, the earliest needed first, then what is under its point. */
export async function orderSuggestions(shop: ShopHandle, withCost: boolean): Promise<SuggestedOrder[]> {
  const [parts, waiting, drafts, { zone, locale }] = await Promise.all([
    shop.read.part.findMany({
      where: { active: true },
      select: {
        id: true,
        code: true,
        name: true,
        unit: true,
        supplier: true,
        leadDays: true,
        onHandMilli: true,
        reservedMilli: true,
        onOrderMilli: true,
        pointMilli: true,
        topMilli: true,
        replacedById: true,
        costE4: withCost,
      },
      orderBy: { code: "asc" },
    }),
    shortagesOf(shop),
    shop.read.orderLine.groupBy({
      by: ["partId"],
      where: { order: { state: "draft" } },
      _sum: { quantityMilli: true },
    }),
    clockIn(shop.read),
  ]);
  const newest = await newestOf(shop.read, parts);
  const made = new Set(parts.map((part) => part.id));
  // What is made no more is not ordered: what jobs lack of it is wanted of the part that took its place.
  const replaced = new Map([...newest].filter(([, end]) => made.has(end.id)));
  for (const part of parts) {
    const end = replaced.get(part.id);
    const short = end && waiting.get(part.id);
    if (!end || !short) continue;
    waiting.set(end.id, [...(waiting.get(end.id) ?? []), ...short.map((row) => ({ ...row, of: part.code }))]);
  }
  const policies = await policiesOf(shop, parts);
  const drafted = new Map(drafts.map((row) => [row.partId, row._sum.quantityMilli ?? 0]));
  const coming = (part: { id: number; onOrderMilli: number }) =>
    part.onOrderMilli + (drafted.get(part.id) ?? 0);
  const wanted = parts.filter(
    (part) =>
      !replaced.has(part.id) &&
      (waiting.has(part.id) ||
        part.onHandMilli - part.reservedMilli + coming(part) <=
          (part.pointMilli || (policies.get(part.id)?.pointMilli ?? -1))),
  );
  const offers = await usualOffers(
    shop,
    wanted.map((part) => part.id),
    withCost,
  );
  const orders = new Map<string, SuggestedOrder>();
  for (const part of wanted) {
    const offer = offers.get(part.id);
    const short = waiting.get(part.id) ?? [];
    const lines = suggestOrder(
      {
        freeMilli: part.onHandMilli - part.reservedMilli,
        comingMilli: coming(part),
        pointMilli: part.pointMilli,
        topMilli: part.topMilli,
        policy: policies.get(part.id) ?? null,
        sold: { packMilli: offer?.packMilli ?? 0, leastMilli: offer?.leastMilli ?? 0 },
        shortages: short.map((row) => ({
          ...row,
          neededOn: row.neededAt ? dayOf(row.neededAt.getTime(), zone) : null,
        })),
      },
      {
        quantity: (milli) => quantityText(milli, part.unit),
        day: (day) => dayWords(day, locale),
      },
    );
    if (lines.length === 0) continue;
    const name = offer?.supplier.name ?? (part.supplier || NOBODY);
    const order = orders.get(name) ?? {
      supplierId: offer?.supplierId ?? null,
      supplier: name,
      lines: [],
    };
    order.supplierId ??= offer?.supplierId ?? null;
    for (const line of lines)
      order.lines.push({
        ...line,
        because: [...insteadReasons(short, line.jobId, part.code), ...line.because],
        partId: part.id,
        code: part.code,
        name: part.name,
        unit: part.unit,
        jobNumber: short.find((row) => row.jobId === line.jobId)?.jobNumber ?? null,
        leadDays: offer?.leadDays ?? offer?.supplier.leadDays ?? part.leadDays,
        costE4: offer?.costE4 ?? part.costE4 ?? null,
      });
    orders.set(name, order);
  }
  const urgency = (line: SuggestedLine) => (line.jobId === null ? "z" : (line.neededOn ?? "9999-99-99"));
  for (const order of orders.values())
    order.lines.sort((a, b) => urgency(a).localeCompare(urgency(b)) || a.code.localeCompare(b.code));
  return [...orders.values()].sort((a, b) => {
    const [first, second] = [a, b].map((order) => (order.lines[0] ? urgency(order.lines[0]) : "z"));
    return (first ?? "").localeCompare(second ?? "") || a.supplier.localeCompare(b.supplier);
  });
}

/** What the usual suppliers of these parts sell them for, some hundreds asked for at a time: a shop may keep thousands. */
async function usualOffers(shop: ShopHandle, partIds: readonly number[], withCost: boolean) {
  const rows = await fetched(partIds, (some) =>
    shop.read.partSupplier.findMany({
      where: { partId: { in: some }, usual: true },
      select: {
        partId: true,
        supplierId: true,
        packMilli: true,
        leastMilli: true,
        leadDays: true,
        costE4: withCost,
        supplier: { select: { name: true, leadDays: true } },
      },
      orderBy: { id: "desc" },
    }),
  );
  // Of two called usual the older one stands.
  return new Map(rows.map((row) => [row.partId, row]));
}

/** That a job asked for a part which is made no more. */
const insteadReasons = (short: readonly Waiting[], jobId: number | null, code: string): Reason[] =>
  short.flatMap(({ jobId: waits, of }) =>
    of !== undefined && waits === jobId
      ? [
          {
            fact: `the job asks for ${of}, which is made no more`,
            from: "the part",
            effect: `${code} in its place`,
          },
        ]
      : [],
  );

interface Waiting {
  /** Code of the part that the job asks for, where this one takes its place. */
  of?: string;
  jobId: number;
  jobNumber: string;
  shortMilli: number;
  neededAt: Date | null;
}

/** What jobs that go on are short of, by part, each with the start of its next booking. */
async function shortagesOf(shop: ShopHandle): Promise<Map<number, Waiting[]>> {
  const rows = await shop.read.reservation.findMany({
    where: {
      state: "held",
      wantedMilli: { gt: shop.read.reservation.fields.reservedMilli },
      job: { state: { in: ["waiting", "booked", "inWork", "ride"] } },
    },
    select: {
      partId: true,
      jobId: true,
      wantedMilli: true,
      reservedMilli: true,
      usedMilli: true,
      job: {
        select: {
          number: true,
          bookings: {
            where: { state: "held", endsAt: { gt: shop.now } },
            select: { startsAt: true },
            orderBy: { startsAt: "asc" },
            take: 1,
          },
        },
      },
    },
    orderBy: { id: "asc" },
  });
  const found = new Map<number, Waiting[]>();
  for (const row of rows) {
    const short = shortOf(row);
    if (short === 0) continue;
    const own = found.get(row.partId) ?? [];
    const same = own.find((each) => each.jobId === row.jobId);
    if (same) same.shortMilli += short;
    else
      own.push({
        jobId: row.jobId,
        jobNumber: row.job.number,
        shortMilli: short,
        neededAt: row.job.bookings[0]?.startsAt ?? null,
      });
    found.set(row.partId, own);
  }
  return found;
}
