import type { ShopHandle } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import { dayAfter, instantOf } from "@/lib/domain/schedule/localTime";
import { type DayRange, monthsIn } from "@/lib/domain/schedule/ranges";
import { stateOn } from "../quotes/rows";
import { packagesOf } from "./packagesOf";
import { type SentFact, type WinLine, winLines } from "./winRate";

const PAGE = 1000;
const MOST = 10_000;

export interface QuoteFigures {
  readonly months: readonly WinLine[];
  readonly packages: readonly WinLine[];
  readonly whole: WinLine;
  /** Reasons given with a no, newest first. */
  readonly reasons: readonly { readonly number: string; readonly id: number; readonly reason: string }[];
  /** True where there are more quotes than are counted. */
  readonly cut: boolean;
}

/** Quotes sent on days: won, lost and waiting, by month of sending and by package. */
export async function quoteFigures(shop: ShopHandle, days: DayRange): Promise<QuoteFigures> {
  const { sent, cut } = await sentOn(shop, days);
  const [whole] = winLines(sent, () => "all", ["all"]);
  return {
    months: winLines(sent, (one) => one.month, monthsIn(days)),
    packages: winLines(sent, (one) => one.package).sort((a, b) => b.wonMinor - a.wonMinor),
    whole: whole as WinLine,
    reasons: sent
      .filter((one) => one.reason !== "")
      .slice(0, 12)
      .map(({ id, number, reason }) => ({ id, number, reason })),
    cut,
  };
}

/** A quote behind the figures. */
export interface SentQuote extends SentFact {
  readonly id: number;
  readonly number: string;
  readonly title: string;
  readonly customer: string;
  /** The day it was sent, on the shop's clock. */
  readonly day: string;
  /** Why it was declined; empty where it was not, or nobody said. */
  readonly reason: string;
}

/** The quotes that a figure counts, newest first: those of one package, or all; `more` where the list ends before they do. */
export async function quotesBehind(
  shop: ShopHandle,
  days: DayRange,
  ofPackage: string | undefined,
  most: number,
): Promise<{ readonly quotes: readonly SentQuote[]; readonly whole: WinLine; readonly more: boolean }> {
  const { sent } = await sentOn(shop, days);
  const own = ofPackage === undefined ? sent : sent.filter((one) => one.package === ofPackage);
  const [whole] = winLines(own, () => "all", ["all"]);
  return { quotes: own.slice(0, most), whole: whole as WinLine, more: own.length > most };
}

async function sentOn(shop: ShopHandle, days: DayRange): Promise<{ sent: SentQuote[]; cut: boolean }> {
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const today = dayIn(zone, shop.now);
  const rows = await sentBetween(
    shop,
    new Date(instantOf(days.from, "00:00", zone)),
    new Date(instantOf(dayAfter(days.to), "00:00", zone)),
  );
  const sent = rows.flatMap((row): SentQuote[] => {
    const state = stateOn(today, row);
    // One that was replaced lives on in the quote that took its place.
    if (!row.sentAt || state === "replaced") return [];
    const lost = state === "declined" || state === "expired";
    return [
      {
        id: row.id,
        number: row.number,
        title: row.title,
        customer: row.customer.name,
        day: dayIn(zone, row.sentAt),
        package: packagesOf(row.revisions[0]?.works ?? []),
        month: dayIn(zone, row.sentAt).slice(0, 7),
        state: state === "accepted" ? "won" : lost ? "lost" : "open",
        grossMinor: row.grossMinor,
        reason: row.state === "declined" ? row.declineReason : "",
      },
    ];
  });
  return { sent, cut: rows.length >= MOST };
}

async function sentBetween(shop: ShopHandle, since: Date, until: Date) {
  const read = (after: number | null) =>
    shop.read.quote.findMany({
      where: { sentAt: { gte: since, lt: until } },
      select: {
        id: true,
        number: true,
        title: true,
        state: true,
        validUntil: true,
        sentAt: true,
        grossMinor: true,
        declineReason: true,
        customer: { select: { name: true } },
        revisions: {
          select: {
            works: {
              select: { packageRevision: { select: { package: { select: { name: true } } } } },
              orderBy: { position: "asc" },
              take: 20,
            },
          },
          orderBy: { number: "desc" },
          take: 1,
        },
      },
      orderBy: { id: "desc" },
      take: PAGE,
      ...(after === null ? {} : { cursor: { id: after }, skip: 1 }),
    });
  const rows = await read(null);
  for (let page = rows; page.length === PAGE && rows.length < MOST; ) {
    page = await read(rows.at(-1)?.id ?? null);
    rows.push(...page);
  }
  return rows;
}
