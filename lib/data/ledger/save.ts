import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type AccountUse, fitsUse, type LedgerAccount, nameOfUse } from "@/lib/domain/ledger/accounts";
import { moneyText } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { type Book, bookIn, MOST_ACCOUNTS } from "./chart";

/** The books as they were seen. */
interface Seen {
  readonly version: number;
  readonly key?: string | undefined;
}

/** Adds an account to the shop's chart. */
export async function addAccount(shop: ShopHandle, input: LedgerAccount & Seen): Promise<void> {
  await change(shop, "added an account", input, async (tx, book) => {
    const { version: _, key: __, ...account } = input;
    demandFree(book, account.code);
    if (book.chart.accounts.length >= MOST_ACCOUNTS)
      throw new Refusal(`The chart has ${MOST_ACCOUNTS} accounts.`, "Remove one that is not used.");
    await tx.ledgerAccount.create({ data: account });
    return { code: account.code };
  });
}

/** Changes an account; its uses and its opening balance go with it, also under another code. */
export async function changeAccount(
  shop: ShopHandle,
  input: LedgerAccount & Seen & { readonly was: string },
): Promise<void> {
  await change(shop, "changed an account", input, async (tx, book) => {
    const { version: _, key: __, was, ...account } = input;
    if (account.code !== was) demandFree(book, account.code);
    for (const use of usesOf(book, was)) demandFits(use, account);
    await demandOne(tx.ledgerAccount.updateMany({ where: { code: was }, data: account }), () => missing(was));
    return { code: account.code, ...(was === account.code ? {} : { was }) };
  });
}

/** Takes an account out of the chart. Refused where something goes to it or stands on it. */
export async function removeAccount(
  shop: ShopHandle,
  input: Seen & { readonly code: string },
): Promise<void> {
  await change(shop, "removed an account", input, async (tx, book) => {
    const { code } = input;
    const uses = usesOf(book, code);
    if (uses.length > 0)
      throw new Refusal(
        `Account ${code} takes ${uses.map(nameOfUse).join(", ").toLowerCase()}.`,
        "Choose another account for that first.",
        {},
        "conflict",
      );
    if ((book.beginning.opening.get(code) ?? 0) !== 0)
      throw new Refusal(`Account ${code} has an opening balance.`, "Take that out first.", {}, "conflict");
    await demandOne(tx.ledgerAccount.deleteMany({ where: { code } }), () => missing(code));
    return { code };
  });
}

/** Chooses which account takes what happens. */
export async function chooseAccounts(
  shop: ShopHandle,
  input: Seen & { readonly uses: Readonly<Partial<Record<AccountUse, string>>> },
): Promise<void> {
  await change(shop, "chose accounts", input, async (tx, { chart }) => {
    const rows = await tx.ledgerAccount.findMany({
      select: { id: true, code: true },
      take: MOST_ACCOUNTS,
      orderBy: { id: "asc" },
    });
    for (const [use, code] of Object.entries(input.uses) as [AccountUse, string][]) {
      const account = chart.accounts.find((one) => one.code === code);
      const row = rows.find((one) => one.code === code);
      if (!account || !row) throw missing(code, `uses.${use}`);
      demandFits(use, account, `uses.${use}`);
      await tx.ledgerUse.upsert({
        where: { use },
        create: { use, accountId: row.id },
        update: { accountId: row.id },
      });
    }
    return { uses: input.uses };
  });
}

export interface BeginningInput extends Seen {
  readonly startsOn: string | null;
  readonly yearMonth: number;
  readonly stockToo: boolean;
  /** Debits in minor units by account code, below zero for credits; accounts left out stand at nothing. */
  readonly opening: Readonly<Record<string, number>>;
}

/** Says from which day the books are kept here, and what stood on each account then: it must add up to nothing. */
export async function saveBeginning(shop: ShopHandle, input: BeginningInput): Promise<void> {
  await change(shop, "set opening balances", input, async (tx, { chart }) => {
    const { startsOn, yearMonth, stockToo, opening } = input;
    const { currency, locale, zone } = await tx.settings.findUniqueOrThrow({
      where: { id: 1 },
      select: { currency: true, locale: true, zone: true },
    });
    const amounts = Object.values(opening);
    const rest = amounts.reduce((sum, minor) => sum + minor, 0);
    if (rest !== 0) {
      const text = `${moneyText(Math.abs(rest), currency, locale)} ${currency}`;
      throw new Refusal(
        `Debits are ${text} ${rest > 0 ? "more" : "less"} than credits.`,
        "Opening balances must balance: often it is equity that is missing.",
      );
    }
    if (startsOn === null && amounts.some((minor) => minor !== 0))
      throw new Refusal("Opening balances need their day.", "Enter the day the books begin here.", {
        startsOn: "Enter the day.",
      });
    if (startsOn !== null && startsOn > dayIn(zone, shop.now))
      throw new Refusal("That day has not come yet.", "Enter a day up to today.", {
        startsOn: "Up to today.",
      });
    for (const { code } of chart.accounts)
      await tx.ledgerAccount.updateMany({ where: { code }, data: { openingMinor: opening[code] ?? 0 } });
    await tx.ledgerBook.update({ where: { id: 1 }, data: { startsOn, yearMonth, stockToo } });
    return { startsOn, yearMonth, stockToo };
  });
}

/** A change of the books as they were seen; the first one takes the starting chart over. */
async function change(
  shop: ShopHandle,
  act: string,
  input: Seen,
  run: (tx: ShopTx, book: Book) => Promise<object>,
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, act, input, async () => {
      const book = await bookIn(tx);
      if (book.source !== null) await keepIn(tx, book);
      await demandOne(
        tx.ledgerBook.updateMany({
          where: { id: 1, version: input.version },
          data: { version: { increment: 1 } },
        }),
        () =>
          new Refusal(
            "The accounts were changed by someone else since you opened this page.",
            "Open it again and look at what they are now; what you typed is still here.",
            {},
            "conflict",
          ),
      );
      await audit(tx, shop, act, "ledger", null, await run(tx, book));
      return true;
    }),
  );
}

/** Keeps the starting chart as the shop's own. */
async function keepIn(tx: ShopTx, { chart, beginning }: Book): Promise<void> {
  await tx.ledgerBook.create({ data: { id: 1, yearMonth: beginning.yearMonth } });
  await tx.ledgerAccount.createMany({ data: chart.accounts.map((account) => ({ ...account })) });
  const rows = await tx.ledgerAccount.findMany({ select: { id: true, code: true }, orderBy: { id: "asc" } });
  const ids = new Map(rows.map((row) => [row.code, row.id]));
  await tx.ledgerUse.createMany({
    data: Object.entries(chart.uses).map(([use, code]) => ({ use, accountId: ids.get(code) ?? 0 })),
  });
}

const usesOf = ({ chart }: Book, code: string): AccountUse[] =>
  (Object.entries(chart.uses) as [AccountUse, string][]).flatMap(([use, of]) => (of === code ? [use] : []));

function demandFits(use: AccountUse, { code, kind }: LedgerAccount, field = "kind"): void {
  if (fitsUse(use, kind)) return;
  throw new Refusal(
    `Account ${code} is of kind ${kind}, which does not fit "${nameOfUse(use)}".`,
    "Choose another account, or change its kind.",
    { [field]: `"${nameOfUse(use)}" needs another kind of account.` },
  );
}

function demandFree({ chart }: Book, code: string): void {
  if (!chart.accounts.some((one) => one.code === code)) return;
  throw new Refusal(`There is an account ${code} already.`, "Choose another number.", {
    code: "This number is taken.",
  });
}

const missing = (code: string, field = "code") =>
  new Refusal(
    `There is no account ${code}.`,
    "Choose one of the chart.",
    { [field]: "Not in the chart." },
    "missing",
  );
