import type { ShopHandle } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import { instantOf } from "@/lib/domain/schedule/localTime";
import { stateOn } from "../quotes/rows";
import { type SentFact, type WinLine, winLines } from "./winRate";

const MONTHS = 12;
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

/** Quotes of the last twelve months: won, lost and waiting, by month of sending and by package. */
export async function quoteFigures(shop: ShopHandle): Promise<QuoteFigures> {
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const today = dayIn(zone, shop.now);
  const months = lastMonths(today);
  const since = new Date(instantOf(`${months[0]}-01`, "00:00", zone));
  const rows = await sentSince(shop, since);
  const facts = rows.flatMap((row): SentFact[] => {
    const state = stateOn(today, row);
    // One that was replaced lives on in the quote that took its place.
    if (!row.sentAt || state === "replaced") return [];
    const won = state === "accepted";
    const lost = state === "declined" || state === "expired";
    return [
      {
        package: packagesOf(row.revisions[0]?.works ?? []),
        month: dayIn(zone, row.sentAt).slice(0, 7),
        state: won ? "won" : lost ? "lost" : "open",
        grossMinor: row.grossMinor,
      },
    ];
  });
  const [whole] = winLines(facts, () => "all", ["all"]);
  return {
    months: winLines(facts, (f) => f.month, months),
    packages: winLines(facts, (f) => f.package).sort((a, b) => b.wonMinor - a.wonMinor),
    whole: whole as WinLine,
    reasons: rows
      .filter((r) => r.state === "declined" && r.declineReason !== "")
      .slice(0, 12)
      .map(({ id, number, declineReason }) => ({ id, number, reason: declineReason })),
    cut: rows.length >= MOST,
  };
}

/** What a quote is counted under: its packages, each once. */
function packagesOf(works: readonly { packageRevision: { package: { name: string } } | null }[]): string {
  const names = works.flatMap((work) => work.packageRevision?.package.name ?? []);
  return [...new Set(names)].join(" + ") || "No package";
}

/** "2025-12" to this month. */
function lastMonths(today: string): string[] {
  const at = Number(today.slice(0, 4)) * 12 + Number(today.slice(5, 7)) - 1;
  return Array.from({ length: MONTHS }, (_, i) => {
    const month = at - (MONTHS - 1) + i;
    return `${Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, "0")}`;
  });
}

async function sentSince(shop: ShopHandle, since: Date) {
  const read = (after: number | null) =>
    shop.read.quote.findMany({
      where: { sentAt: { gte: since } },
      select: {
        id: true,
        number: true,
        title: true,
        state: true,
        validUntil: true,
        sentAt: true,
        grossMinor: true,
        declineReason: true,
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
