import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import type { ListQuotes, QuoteStateName } from "@/lib/schemas/quotes";
import { bikeName } from "../bikes/bikeName";
import { rowsMatching } from "../common/narrow";
import { stateOn } from "./rows";

const PAGE = 50;

export interface QuoteLine {
  readonly id: number;
  readonly number: string;
  readonly title: string;
  readonly state: QuoteStateName;
  readonly customer: string;
  readonly bike: string;
  readonly grossMinor: number;
  readonly validUntil: string;
  readonly revisionNumber: number;
  readonly createdAt: Date;
  /** Whole days since it was sent, or made where it was not. */
  readonly ageDays: number;
  readonly variation: boolean;
  readonly callOn: string | null;
}

/** Quotes, newest first or as asked, narrowed by state, words and kind; `next` is the cursor of the page after. */
export async function listQuotes(
  shop: ShopHandle,
  query: ListQuotes,
): Promise<{ rows: QuoteLine[]; next: number | null }> {
  const words = await rowsMatching(shop, "Quote", query.q ?? "");
  const todayThere = async () => {
    const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
    return dayIn(zone, shop.now);
  };
  // Where the rows do not hang on the day, both are asked for at once.
  const narrowedByDay = query.state === "sent" || query.state === "expired";
  const day = narrowedByDay ? await todayThere() : null;
  const sort = query.sort ?? "-number";
  // The one order whose cursor is a condition: rows after it are asked for like any others.
  const byNumber = sort === "number" || sort === "-number";
  const list = {
    where: {
      AND: [
        whereState(query.state, day ?? ""),
        ...(query.kind ? [{ variationOfId: query.kind === "variation" ? { not: null } : null }] : []),
        words,
        ...(byNumber && query.after ? [{ id: { [sort === "number" ? "gt" : "lt"]: query.after } }] : []),
      ],
    },
    select: {
      id: true,
      number: true,
      title: true,
      state: true,
      grossMinor: true,
      validUntil: true,
      revisionNumber: true,
      createdAt: true,
      sentAt: true,
      variationOfId: true,
      callOn: true,
      customer: { select: { name: true } },
      bike: { select: { year: true, modelCard: { select: { make: true, model: true } } } },
    },
    orderBy: orderOf(sort),
    take: PAGE + 1,
    ...(query.after && !byNumber ? { cursor: { id: query.after }, skip: 1 } : {}),
  } satisfies Prisma.QuoteFindManyArgs;
  const [rowsFound, today] = await Promise.all([shop.read.quote.findMany(list), day ?? todayThere()]);
  const rows = rowsFound.slice(0, PAGE).map((row) => ({
    id: row.id,
    number: row.number,
    title: row.title,
    state: stateOn(today, row),
    customer: row.customer.name,
    bike: bikeName(row.bike),
    grossMinor: row.grossMinor,
    validUntil: row.validUntil,
    revisionNumber: row.revisionNumber,
    createdAt: row.createdAt,
    ageDays: Math.max(
      0,
      Math.floor((shop.now.getTime() - (row.sentAt ?? row.createdAt).getTime()) / 86_400_000),
    ),
    variation: row.variationOfId !== null,
    callOn: row.callOn,
  }));
  return { rows, next: rowsFound.length > PAGE ? (rows.at(-1)?.id ?? null) : null };
}

function orderOf(sort: NonNullable<ListQuotes["sort"]>): Prisma.QuoteOrderByWithRelationInput[] {
  const way = sort.startsWith("-") ? "desc" : "asc";
  const column = sort.replace("-", "");
  if (column === "customer") return [{ customer: { name: way } }, { id: "desc" }];
  if (column === "sent") return [{ sentAt: { sort: way, nulls: "last" } }, { id: way }];
  if (column === "valid") return [{ validUntil: way }, { id: way }];
  return column === "value" ? [{ grossMinor: way }, { id: way }] : [{ id: way }];
}

function whereState(state: QuoteStateName | undefined, today: string): Prisma.QuoteWhereInput {
  if (state === undefined) return {};
  if (state === "sent") return { state, validUntil: { gte: today } };
  if (state === "expired") return { OR: [{ state }, { state: "sent", validUntil: { lt: today } }] };
  return { state };
}
