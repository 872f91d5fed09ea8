import type { Permission } from "@/lib/domain/access/permissions";

/** A room of the books: its path in the shop, its name, what it is for in one line, who may enter. */
export type BooksRoom = readonly [path: string, name: string, what: string, needs: Permission];

export const ROOMS: readonly BooksRoom[] = [
  ["books/tax", "Tax", "Sales and their tax by period, rate and category, to the document", "books.read"],
  ["books/periods", "Periods", "Close the books up to a day, so that nothing is dated before", "books.read"],
  [
    "invoices/owing",
    "Who owes what",
    "Open invoices by age, over-payments, deposits; on any day",
    "invoice.read",
  ],
  ["hours", "Hours", "Time taken by week and person, and as a file for wages", "export.run"],
];
