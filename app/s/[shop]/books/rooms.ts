import type { Permission } from "@/lib/domain/access/permissions";

/** A room of the books: its path in the shop, its name, what it is for in one line, who may enter. */
export type BooksRoom = readonly [path: string, name: string, what: string, needs: Permission];

/** The rooms, each under its head in the order they are listed. */
export const ROOMS: Readonly<Record<string, readonly BooksRoom[]>> = {
  Money: [
    ["books/day", "End of day", "The drawer counted against the day's takings, closed once", "day.close"],
    [
      "invoices/owing",
      "Who owes what",
      "Open invoices by age, over-payments, deposits; on any day",
      "invoice.read",
    ],
    ["invoices/bank", "Bank", "Your bank's list, each line matched to what it pays", "payment.write"],
    ["books/payments", "Payments register", "All money in and out, by method", "books.read"],
  ],
  Tax: [
    ["books/tax", "Tax", "Sales and their tax by period, rate and category, to the document", "books.read"],
    [
      "books/periods",
      "Periods",
      "Close the books up to a day, so that nothing is dated before",
      "books.read",
    ],
  ],
  Accounts: [
    ["books/journal", "Journal", "Double entry from documents and payments, day by day", "books.read"],
    ["books/balances", "Trial balance", "What stood on each account, what moved, what stands", "books.read"],
    ["books/accounts", "Accounts", "The chart, which account takes what, opening balances", "books.read"],
  ],
  Registers: [
    ["books/documents", "Documents register", "Every number of every series, checked for gaps", "books.read"],
    ["books/stock", "Stock value", "What lies in stock at cost, on any day", "books.read"],
    ["hours", "Hours", "Time taken by week and person, and as a file for wages", "export.run"],
    ["books/files", "Layout of the files", "What each column of the CSV files holds", "books.read"],
  ],
};
