import { everyEntry, journalSums } from "@/lib/data/ledger/journal";
import { everyDocument, everyPayment, stockWorth } from "@/lib/data/ledger/registers";
import {
  balancesCsvParts,
  documentsCsvParts,
  journalCsvParts,
  paymentsCsvParts,
  stockCsvParts,
} from "@/lib/documents/ledgerCsv";
import type { LedgerRange } from "@/lib/domain/ledger/trial";
import { Refusal } from "@/lib/domain/refusal";
import type { OpenShop } from "@/lib/gate/open";
import { file, shopFile, streamOf } from "@/lib/gate/route";
import { ledgerRange } from "@/lib/schemas/ledger";

type Parts = AsyncGenerator<string, void, undefined>;

const FILES: Readonly<
  Record<string, (shop: OpenShop, range: LedgerRange, currency: string) => Promise<Parts>>
> = {
  journal: async (shop, range, currency) => journalCsvParts(everyEntry(shop, range), currency),
  balances: async (shop, range, currency) =>
    balancesCsvParts((await journalSums(shop, range)).rows, currency),
  documents: async (shop, range, currency) => documentsCsvParts(everyDocument(shop, range), currency),
  payments: async (shop, range, currency) => paymentsCsvParts(everyPayment(shop, range), currency),
  stock: async (shop, { to }, currency) => stockCsvParts(await stockWorth(shop, to), currency),
};

/** A file for the accountant as CSV: journal, balances, documents, payments, or stock at the end of `?to=`. Sent as it is made. */
export const GET = shopFile("books.read", async (shop, { file: name = "" }, request) => {
  const make = Object.hasOwn(FILES, name) ? FILES[name] : undefined;
  if (!make) throw new Refusal("There is no such file.", "Open the books again.", {}, "missing");
  const { zone, currency } = shop.settings;
  const range = ledgerRange(Object.fromEntries(request.nextUrl.searchParams), shop.now, zone);
  const parts = await make(shop, range, currency);
  const days = name === "stock" ? range.to : `${range.from}-${range.to}`;
  return file(streamOf(parts), "text/csv; charset=utf-8", `${name}-${days}.csv`);
});
