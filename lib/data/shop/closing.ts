import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, daysAfter } from "@/lib/domain/schedule/days";
import { dayTexts } from "./dayTexts";

type Db = Pick<ShopTx, "booksClosing">;
/** What also says in words which day is closed. */
type Saying = Pick<ShopTx, "booksClosing" | "settings">;

/** The last day that is closed; empty where none is. */
export async function closedThrough(db: Db): Promise<string> {
  const row = await db.booksClosing.findFirst({ select: { throughDay: true }, orderBy: { id: "desc" } });
  return row?.throughDay ?? "";
}

/** The day that money is dated on: today, or the first day that is open where today is closed. */
export async function firstOpenDay(db: Db, today: string): Promise<string> {
  const through = await closedThrough(db);
  return through < today ? today : daysAfter(through, 1);
}

const WHERE = "or have the owner reopen the period under Books > Periods.";

/** Refuses to date a document inside a closed period. */
export async function demandOpenToIssue(tx: Saying, day: string): Promise<void> {
  const through = await closedThrough(tx);
  if (day > through) return;
  const text = await dayTexts(tx);
  throw new Refusal(
    `It would be dated ${text(day)}, and the books are closed up to ${text(through)}: nothing was issued.`,
    `Issue it on ${text(daysAfter(through, 1))} or later, ${WHERE}`,
    {},
    "conflict",
  );
}

/** Refuses to date money inside a closed period. */
export async function demandOpenToPay(tx: Saying, day: string): Promise<void> {
  const through = await closedThrough(tx);
  if (day > through) return;
  const text = await dayTexts(tx);
  const open = text(daysAfter(through, 1));
  const remedy = `Date it on ${open} or after, ${WHERE}`;
  throw new Refusal(
    `${text(day)} lies in a closed period: the books are closed up to ${text(through)}. Nothing was recorded.`,
    remedy,
    { paidOn: `${open} is the first open day.` },
    "conflict",
  );
}

/** Closings and reopenings, the newest first. */
export async function listClosings(shop: ShopHandle) {
  return shop.read.booksClosing.findMany({
    select: { id: true, throughDay: true, act: true, reason: true, personName: true, at: true },
    orderBy: { id: "desc" },
    take: 100,
  });
}

interface Change {
  readonly reason: string;
  /** What was closed as the page was shown: it must not have changed. */
  readonly seen: string;
  readonly key?: string | undefined;
}

/** Closes the books up to a day, today at most: from then on nothing is dated on it or before. Answers the row's id. */
export async function closeBooks(
  shop: ShopHandle,
  input: Change & { readonly throughDay: string },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "closed the books", input, async () => {
      const before = await seenIn(tx, input);
      const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
      if (input.throughDay > dayIn(zone, shop.now))
        throw new Refusal("That day has not come yet.", "Close up to today at most.", {
          throughDay: "Not in the future.",
        });
      if (input.throughDay <= before) {
        const closed = (await dayTexts(tx))(before);
        throw new Refusal(
          `The books are closed up to ${closed} already.`,
          "Choose a later day, or reopen first.",
          { throughDay: `After ${closed}.` },
        );
      }
      return writeIn(tx, shop, { act: "closed", before, throughDay: input.throughDay, reason: input.reason });
    }),
  );
}

/** Reopens the books from a day on, with a reason. Answers the row's id. */
export async function reopenBooks(
  shop: ShopHandle,
  input: Change & { readonly fromDay: string },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "reopened the books", input, async () => {
      const before = await seenIn(tx, input);
      if (before === "" || input.fromDay > before)
        throw new Refusal(
          `${(await dayTexts(tx))(input.fromDay)} is open.`,
          "Nothing is to be done.",
          {},
          "conflict",
        );
      const throughDay = daysAfter(input.fromDay, -1);
      return writeIn(tx, shop, { act: "reopened", before, throughDay, reason: input.reason });
    }),
  );
}

async function seenIn(tx: Db, { seen }: Change): Promise<string> {
  const now = await closedThrough(tx);
  if (now === seen) return now;
  throw new Refusal(
    "Somebody else closed or reopened the books in the meantime.",
    "Load the page again.",
    {},
    "conflict",
  );
}

async function writeIn(
  tx: ShopTx,
  shop: ShopHandle,
  { before, ...row }: { act: "closed" | "reopened"; throughDay: string; before: string; reason: string },
): Promise<number> {
  const { id } = await tx.booksClosing.create({
    data: { ...row, personName: shop.by.name, at: shop.now },
    select: { id: true },
  });
  await audit(tx, shop, `${row.act} the books`, "booksClosing", id, {
    throughDay: row.throughDay,
    before,
    reason: row.reason,
  });
  return id;
}
