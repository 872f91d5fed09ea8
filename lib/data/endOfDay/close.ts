import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { compared, countedCash, expectedCash, type Pieces, splitCounted } from "@/lib/domain/endOfDay/drawer";
import type { PrintedDay } from "@/lib/domain/endOfDay/printed";
import { netOf, takingsOf } from "@/lib/domain/endOfDay/takings";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, dayWords } from "@/lib/domain/schedule/days";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { hashOf } from "../common/hash";
import { frozenDayOf } from "../documents/endOfDay";
import { sellerOf } from "../invoices/compose";
import { inCompanyRegister } from "../shop/taxTerms";
import { lastEnd } from "./last";
import { type Money, moneyOf, movesOf, seenOf } from "./rows";

export interface CloseDay {
  readonly day: string;
  /** What whoever counts saw of the day's money: lib/data/endOfDay/rows.ts. */
  readonly seen: string;
  /** What the drawer began with; asked of the first day alone. */
  readonly floatMinor: number | null;
  /** Coin by coin, or one sum where there are none. */
  readonly pieces: readonly Pieces[];
  readonly sumMinor: number | null;
  /** What stays in the drawer; null: the float that it began with, as far as there is so much. */
  readonly leftMinor: number | null;
  readonly reason: string;
  /** The card terminal's total; null where nobody read it off. */
  readonly terminalMinor: number | null;
  readonly terminalReason: string;
  readonly key?: string | undefined;
}

/** As much as a column of the database holds. */
const MOST_MINOR = 2_000_000_000;

/**
 * Closes a day, once and for good: what was counted is held against the money on record, and all of it is frozen. Days before it that had
 * no end of their own are closed with it. Answers its id. Refused for a day that is closed, where money was recorded since it was
 * looked at, and for a difference without a reason.
 */
export async function closeDay(shop: ShopHandle, input: CloseDay): Promise<number> {
  return shop.write((tx) => once(tx, shop, "closed a day", input, () => closeIn(tx, shop, input)));
}

async function closeIn(tx: ShopTx, shop: ShopHandle, input: CloseDay): Promise<number> {
  const settings = await tx.settings.findUniqueOrThrow({ where: { id: 1 } });
  const { currency, locale, zone, country } = settings;
  const last = await lastEnd(tx);
  demandOpen(input.day, dayIn(zone, shop.now), last, locale);
  const span = { fromDay: last ? dayAfter(last.day) : input.day, day: input.day };
  const [money, moves] = [await moneyOf(tx, span), await movesOf(tx, span)];
  if (seenOf(span, money, moves) !== input.seen)
    throw new Refusal(
      "Money of this day was recorded while you counted: nothing was closed.",
      "Open the page again: what you counted may hold it already.",
      {},
      "conflict",
    );
  const takings = takingsOf(money);
  const floatMinor = last?.leftMinor ?? floatOf(input);
  const counted = input.sumMinor ?? countedCash(input.pieces);
  if (!(counted >= 0 && counted <= MOST_MINOR))
    throw new Refusal("No drawer holds that.", "Look over what you counted.", {
      sum: "Enter what lies in the drawer, 0 for nothing.",
    });
  const drawer = compared(
    "drawer",
    {
      expectedMinor: expectedCash(floatMinor, netOf(takings, "cash"), moves),
      countedMinor: counted,
      reason: input.reason,
    },
    settings,
  );
  const terminal =
    input.terminalMinor === null
      ? null
      : compared(
          "terminal",
          {
            expectedMinor: netOf(takings, "card"),
            countedMinor: input.terminalMinor,
            reason: input.terminalReason,
          },
          settings,
        );
  const printed: PrintedDay = {
    ...span,
    closedAt: shop.now.toISOString(),
    zone,
    closedBy: shop.by.name,
    seller: sellerOf({ ...settings, inCompanyRegister: await inCompanyRegister(tx) }, settings.taxRegime),
    country,
    locale,
    currency,
    takings,
    floatMinor,
    moves: moves.map(({ day, amountMinor, reason, personName }) => ({
      day,
      amountMinor,
      reason,
      by: personName,
    })),
    drawer,
    pieces: input.sumMinor === null ? input.pieces.filter((one) => one.pieces > 0) : [],
    ...splitCounted(counted, input.leftMinor ?? Math.min(counted, floatMinor), settings),
    terminal,
    payments: money.map(printedTaking),
  };
  return keepIn(tx, shop, printed);
}

async function keepIn(tx: ShopTx, shop: ShopHandle, printed: PrintedDay): Promise<number> {
  const frozen = frozenDayOf(printed);
  const { day, fromDay, drawer, leftMinor } = frozen;
  const { expectedMinor, countedMinor, differenceMinor, reason } = drawer;
  const { id } = await tx.endOfDay.create({
    data: {
      day,
      fromDay,
      closedAt: shop.now,
      staffId: shop.by.staffId,
      frozen: JSON.parse(JSON.stringify(frozen)),
      hash: hashOf(frozen),
      expectedMinor,
      countedMinor,
      differenceMinor,
      leftMinor,
    },
    select: { id: true },
  });
  await audit(tx, shop, "closed", "day", id, { day, expectedMinor, countedMinor, differenceMinor, reason });
  return id;
}

const printedTaking = ({
  id,
  at,
  paidOn,
  kind,
  method,
  movedMinor,
  roundingMinor,
  document,
  job,
}: Money) => ({
  id,
  at: at.toISOString(),
  paidOn,
  kind,
  method,
  movedMinor,
  roundingMinor,
  document,
  job,
});

function floatOf({ floatMinor }: CloseDay): number {
  if (floatMinor !== null && floatMinor >= 0) return floatMinor;
  throw new Refusal(
    "The first day that is closed needs the float that its drawer began with.",
    "Enter it, 0 for none. From then on it is what stayed in the drawer the day before.",
    { float: "Enter what lay in the drawer as the day began, 0 for none." },
  );
}

/** Refuses a day that is closed already, by another day's end too, and one to come. */
function demandOpen(
  day: string,
  today: string,
  last: Awaited<ReturnType<typeof lastEnd>>,
  locale: string,
): void {
  const text = (one: string) => dayWords(one, locale);
  if (last && day <= last.day)
    throw new Refusal(
      day === last.day
        ? `${text(day)} is closed already.`
        : `${text(day)} is closed already, with ${text(last.day)}.`,
      "Open it in the list of closed days: a closed day never changes.",
      {},
      "conflict",
    );
  if (day > today)
    throw new Refusal("That day has not come yet.", "Close it once it is over.", {
      day: "Not in the future.",
    });
}
