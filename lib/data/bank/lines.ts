import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { propose } from "@/lib/domain/bank/propose";
import type { Proposal } from "@/lib/domain/bank/types";
import { MOST_AT_ONCE } from "@/lib/schemas/bank";
import { openItems } from "./openItems";

const LINE = {
  id: true,
  bookedOn: true,
  amountMinor: true,
  text: true,
  payer: true,
  state: true,
  version: true,
} as const satisfies Prisma.BankLineSelect;

export interface WaitingView {
  readonly lines: readonly (Prisma.BankLineGetPayload<{ select: typeof LINE }> & {
    readonly proposal: Proposal | null;
  })[];
  /** True where more wait than are shown. */
  readonly more: boolean;
}

const WAITS = { state: "waiting", amountMinor: { gt: 0 } } satisfies Prisma.BankLineWhereInput;

/** Money that came in and waits to be matched, the oldest first, each line with what it probably pays. */
export async function waitingLines(shop: ShopHandle): Promise<WaitingView> {
  const found = await shop.read.bankLine.findMany({
    where: WAITS,
    select: LINE,
    orderBy: [{ bookedOn: "asc" }, { id: "asc" }],
    take: MOST_AT_ONCE + 1,
  });
  const lines = found.slice(0, MOST_AT_ONCE);
  const proposals = lines.length > 0 ? propose(lines, await openItems(shop.read)) : new Map();
  return {
    lines: lines.map((line) => ({ ...line, proposal: proposals.get(line.id) ?? null })),
    more: found.length > MOST_AT_ONCE,
  };
}

export const LINE_STATES = ["booked", "aside", "out"] as const;
export type LineState = (typeof LINE_STATES)[number];

const WHICH: Readonly<Record<LineState, Prisma.BankLineWhereInput>> = {
  booked: { state: "booked" },
  aside: { state: "aside" },
  out: { state: "waiting", amountMinor: { lt: 0 } },
};
const TAKE = 50;

/** Lines that wait for nobody, the newest first: booked, set aside, or money that went out. */
export async function decidedLines(shop: ShopHandle, which: LineState, after: number | undefined) {
  const rows = await shop.read.bankLine.findMany({
    where: { ...WHICH[which], ...(after ? { id: { lt: after } } : {}) },
    select: {
      ...LINE,
      decisions: {
        select: {
          act: true,
          why: true,
          at: true,
          payments: {
            select: {
              payment: {
                select: {
                  id: true,
                  kind: true,
                  amountMinor: true,
                  invoice: { select: { id: true, written: true } },
                  job: { select: { id: true, number: true } },
                },
              },
            },
            orderBy: { paymentId: "asc" },
          },
        },
        orderBy: { id: "desc" },
        take: 1,
      },
    },
    orderBy: { id: "desc" },
    take: TAKE + 1,
  });
  const lines = rows.slice(0, TAKE);
  return { lines, next: rows.length > TAKE ? (lines.at(-1)?.id ?? null) : null };
}

/** One line with what it probably pays, for the page where a person chooses; null where there is none. */
export async function getBankLine(shop: ShopHandle, id: number) {
  const line = await shop.read.bankLine.findUnique({ where: { id }, select: LINE });
  if (!line) return null;
  const proposal =
    line.state === "waiting" ? (propose([line], await openItems(shop.read)).get(id) ?? null) : null;
  return { ...line, proposal };
}

/** How many lines of money that came in wait. */
export const countWaiting = (shop: ShopHandle): Promise<number> => shop.read.bankLine.count({ where: WAITS });
