/** The four roles of a shop. */
export type Role = "owner" | "desk" | "tuner" | "books";
export const ROLES: readonly Role[] = ["owner", "desk", "tuner", "books"];

export const ROLE_WORDS: Readonly<Record<Role, string>> = {
  owner: "Owner: everything",
  desk: "Desk: customers, quotes, bookings, invoices",
  tuner: "Tuner: floor work, stock use, settings",
  books: "Books: reads all money, payments, exports",
};

/** One table says who may do what; a permission is named noun.verb. */
const TABLE = {
  "today.read": ["owner", "desk", "tuner", "books"],
  "customer.read": ["owner", "desk", "tuner", "books"],
  "customer.write": ["owner", "desk"],
  "bike.read": ["owner", "desk", "tuner", "books"],
  "bike.write": ["owner", "desk", "tuner"],
  "sheet.write": ["owner", "tuner"],
  "intake.write": ["owner", "desk", "tuner"],
  "card.write": ["owner", "tuner"],
  "package.read": ["owner", "desk", "tuner", "books"],
  "package.write": ["owner"],
  "quote.read": ["owner", "desk", "tuner", "books"],
  "quote.write": ["owner", "desk"],
  "quote.send": ["owner", "desk"],
  "margin.read": ["owner", "books"],
  "margin.override": ["owner"],
  "booking.read": ["owner", "desk", "tuner", "books"],
  "booking.write": ["owner", "desk"],
  "job.read": ["owner", "desk", "tuner", "books"],
  "job.write": ["owner", "desk"],
  "job.work": ["owner", "tuner"],
  "job.override": ["owner"],
  "time.correct": ["owner"],
  "stock.read": ["owner", "desk", "tuner", "books"],
  "stock.use": ["owner", "tuner"],
  "stock.write": ["owner", "desk", "tuner"],
  "invoice.read": ["owner", "desk", "books"],
  "invoice.write": ["owner", "desk"],
  "payment.write": ["owner", "desk", "books"],
  "payment.writeOff": ["owner", "books"],
  "chasing.write": ["owner", "desk", "books"],
  "sale.write": ["owner", "desk"],
  "day.close": ["owner", "desk", "books"],
  "photo.read": ["owner", "desk", "tuner"],
  "photo.write": ["owner", "desk", "tuner"],
  "followUp.write": ["owner", "desk", "tuner"],
  "bench.use": ["owner", "desk", "tuner"],
  "books.read": ["owner", "books"],
  "books.close": ["owner", "books"],
  "books.reopen": ["owner"],
  "books.write": ["owner", "books"],
  "figures.read": ["owner", "books"],
  "import.run": ["owner", "desk"],
  "record.merge": ["owner", "desk"],
  "export.run": ["owner", "books"],
  "customer.erase": ["owner"],
  "shop.erase": ["owner"],
  "shop.export": ["owner"],
  "shop.read": ["owner", "desk", "books"],
  "shop.write": ["owner"],
  "people.write": ["owner"],
  "audit.read": ["owner"],
} as const satisfies Record<string, readonly Role[]>;

export type Permission = keyof typeof TABLE;

/** True when a role holds a permission. */
export function may(role: Role, permission: Permission): boolean {
  return (TABLE[permission] as readonly Role[]).includes(role);
}

export const PERMISSIONS = Object.keys(TABLE) as readonly Permission[];
