import type { ShopHandle } from "@/lib/db/shop";
import type { BookedEntry } from "@/lib/domain/ledger/book";
import type { LedgerRange } from "@/lib/domain/ledger/trial";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { fetched } from "../common/chunks";
import { type JournalByCustomer, journalEntries } from "./journal";

/** Entries of one file: some ten years of a busy shop. A longer range is asked for in parts. Judgement. */
const MOST_ENTRIES = 50_000;

/** All that a Norwegian audit file of a range says, as plain values. Refused for another country's shop, and for what it lacks. */
export async function saftOf(shop: ShopHandle, asked: LedgerRange) {
  const settings = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: {
      name: true,
      legalName: true,
      taxNumber: true,
      address: true,
      phone: true,
      email: true,
      currency: true,
      taxRegime: true,
      zone: true,
    },
  });
  if (settings.taxRegime !== "no")
    throw new Refusal(
      "This file is for shops under the Norwegian tax regime.",
      "Take the journal as CSV.",
      {},
      "missing",
    );
  const number = settings.taxNumber.replace(/\D/g, "");
  if (number === "")
    throw new Refusal(
      "The file needs the shop's organisation number.",
      "An owner enters it in Shop > Settings.",
    );
  const { entries, sums } = await all(shop, asked);
  const ungrouped = sums.rows.find(({ account }) => !account.groupCategory || !account.groupCode);
  if (ungrouped)
    throw new Refusal(
      `Account ${ungrouped.account.code} has no group of the tax office's.`,
      "Enter its category and code under Books > Accounts.",
    );
  const head = {
    company: {
      number,
      name: settings.legalName || settings.name,
      address: settings.address,
      phone: settings.phone,
      email: settings.email,
      contact: shop.by.name,
    },
    createdOn: dayIn(settings.zone, shop.now),
    currency: settings.currency,
    range: sums.range,
    rows: sums.rows,
    customers: await customersOf(shop, sums),
    taxes: taxesOf(entries),
    entries: sums.entries,
    debitMinor: sums.debitMinor,
  };
  return { head, entries };
}

async function all(
  shop: ShopHandle,
  asked: LedgerRange,
): Promise<{ entries: BookedEntry[]; sums: JournalByCustomer }> {
  const entries: BookedEntry[] = [];
  const journal = journalEntries(shop, asked);
  for (;;) {
    const next = await journal.next();
    if (next.done) return { entries, sums: next.value };
    entries.push(next.value);
    if (entries.length > MOST_ENTRIES)
      throw new Refusal(
        `The range has more than ${MOST_ENTRIES} entries.`,
        "Ask for a shorter one, such as a year.",
      );
  }
}

async function customersOf(shop: ShopHandle, { customers }: JournalByCustomer) {
  const rows = Map.groupBy(customers, (row) => row.customerId);
  const found = await fetched([...rows.keys()], (ids) =>
    shop.read.customer.findMany({
      where: { id: { in: ids } },
      select: { id: true, name: true, address: true, taxNumber: true, business: true },
      orderBy: { id: "asc" },
    }),
  );
  return found.map(({ id, name, address, taxNumber, business }) => ({
    id,
    name,
    address,
    number: business ? taxNumber.replace(/\s/g, "") : "",
    rows: rows.get(id) ?? [],
  }));
}

/** Each category and rate that the entries charge, once. */
function taxesOf(entries: readonly BookedEntry[]) {
  const found = new Map<string, { category: string; rateBp: number }>();
  for (const { lines } of entries)
    for (const { tax } of lines)
      if (tax) found.set(`${tax.category} ${tax.rateBp}`, { category: tax.category, rateBp: tax.rateBp });
  return [...found.values()].sort((a, b) => b.rateBp - a.rateBp || (a.category < b.category ? -1 : 1));
}
