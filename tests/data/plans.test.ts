import { beforeAll, describe, expect, it } from "vitest";
import { listBikes } from "@/lib/data/bikes/bikes";
import { listLate } from "@/lib/data/bookings/late";
import { getDay } from "@/lib/data/bookings/list";
import { getCustomer, listCustomers } from "@/lib/data/customers/customers";
import { listInvoices, listUnpaid } from "@/lib/data/invoices/list";
import { getCard } from "@/lib/data/jobs/card";
import { getJob } from "@/lib/data/jobs/get";
import { listJobs } from "@/lib/data/jobs/list";
import { jobsToSwitchTo } from "@/lib/data/jobs/time/breaks";
import { quotesToCall } from "@/lib/data/quotes/call";
import { listQuotes } from "@/lib/data/quotes/list";
import { searchAll } from "@/lib/data/search/search";
import { listParts } from "@/lib/data/stock/parts";
import { myNextJob } from "@/lib/data/today/mine";
import { getToday } from "@/lib/data/today/today";
import type { ShopHandle } from "@/lib/db/shop";
import { BikeQuery } from "@/lib/schemas/bikes";
import { CustomerQuery } from "@/lib/schemas/customers";
import { INVOICE_FILTERS } from "@/lib/schemas/invoices";
import { JOB_STATES } from "@/lib/schemas/jobs";
import { ListQuotesSchema, QUOTE_STATES } from "@/lib/schemas/quotes";
import { readyJob } from "../support/invoices";
import { questionsOf, walkedBy } from "../support/plans";
import { sentQuote } from "../support/quotes";
import { twoShops } from "../support/shops";

/** What does not grow with a shop's work. */
const SMALL = new Set(["Bay", "Staff", "Closure", "Settings", "LabourGrade"]);

let shop: ShopHandle;
let id: number;
let customerId: number;

type View = readonly [name: string, read: () => Promise<unknown>];

const views = (): View[] => [
  ["the list of quotes", () => listQuotes(shop, {})],
  ["its next page", () => listQuotes(shop, { after: 1 })],
  ...QUOTE_STATES.map((state): View => [`quotes ${state}`, () => listQuotes(shop, { state })]),
  ...["customer", "sent", "valid", "value", "number"].flatMap((sort) =>
    [sort, `-${sort}`].map(
      (sort): View => [`quotes by ${sort}`, () => listQuotes(shop, ListQuotesSchema.parse({ sort }))],
    ),
  ),
  ...(["first", "variation"] as const).map(
    (kind): View => [`quotes, ${kind}`, () => listQuotes(shop, { kind })],
  ),
  ["quotes to call about", () => quotesToCall(shop)],
  ["the list of jobs", () => listJobs(shop)],
  ["its next page", () => listJobs(shop, { after: 99 })],
  ...JOB_STATES.map((state): View => [`jobs ${state}`, () => listJobs(shop, { state })]),
  ["a job", () => getJob(shop, id)],
  ["its card", () => getCard(shop, id)],
  ["Today", () => getToday(shop, { quotes: true, invoices: true, stock: true, closing: true })],
  ["who is late", () => listLate(shop)],
  ["my next job", () => myNextJob(shop)],
  ["jobs to switch to", () => jobsToSwitchTo(shop)],
  ...["name", "-name", "added"].map(
    (sort): View => [`customers by ${sort}`, () => listCustomers(shop, CustomerQuery.parse({ sort }))],
  ),
  ["a customer", () => getCustomer(shop, customerId, { invoices: true })],
  ...["plate", "-added"].map(
    (sort): View => [`bikes by ${sort}`, () => listBikes(shop, BikeQuery.parse({ sort }))],
  ),
  ["the list of parts", () => listParts(shop, { q: "" })],
  ["parts of a kind", () => listParts(shop, { q: "", kind: "jet" })],
  ["parts below their point", () => listParts(shop, { q: "", below: "1" })],
  ["the list of invoices", () => listInvoices(shop, {})],
  ...INVOICE_FILTERS.map((state): View => [`invoices ${state}`, () => listInvoices(shop, { state })]),
  ["what is unpaid", () => listUnpaid(shop)],
  ["a search", () => searchAll(shop, "oda")],
  ["a day's bookings", () => getDay(shop, undefined, {})],
];

/** What is walked or sorted all the same, and why. */
const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  // Jobs that are going on and waits that have not ended: as many as the shop has room for.
  Today: ["sorts Job", "sorts JobWait"],
  // Their order is walked until a page is full: what they are narrowed by is said of no column of theirs.
  "quotes, variation": ["walks Quote"],
  "invoices credited": ["walks Invoice"],
  "parts below their point": ["walks Part"],
  // By a name that stands in another table.
  "quotes by customer": ["walks Quote", "sorts Quote"],
  "quotes by -customer": ["walks Quote", "sorts Quote"],
};

describe.runIf(!process.env.DATABASE_URL)("what views ask of SQLite", () => {
  beforeAll(async () => {
    const { a } = await twoShops();
    shop = a;
    const { jobId, ready } = await readyJob(a);
    await sentQuote(a, ready);
    id = jobId;
    customerId = (await a.read.job.findUniqueOrThrow({ where: { id }, select: { customerId: true } }))
      .customerId;
  });

  it("walks no table that grows with the shop, and sorts none", async () => {
    const found: Record<string, readonly string[]> = {};
    let asked = 0;
    for (const [name, read] of views()) {
      const questions = await questionsOf(read);
      asked += questions.length;
      const faults = questions.flatMap((sql) => walkedBy(shop.database, sql, SMALL));
      if (faults.length > 0) found[name] = [...new Set(faults)];
    }
    expect(found).toEqual(ALLOWED);
    // Each view asks something new, or nothing was heard of what it asks.
    expect(asked).toBeGreaterThan(views().length);
  });

  it("notices a walk and a sort of all rows", () => {
    const by = (sql: string) => walkedBy(shop.database, sql, SMALL);
    expect(by('SELECT t1."id" FROM "Quote" AS t1 WHERE t1."title" = ? LIMIT 5')).toEqual(["walks Quote"]);
    expect(by('SELECT t1."id" FROM "Quote" AS t1 ORDER BY t1."title" LIMIT 5')).toEqual(["sorts Quote"]);
    expect(by('SELECT t1."id" FROM "Quote" AS t1 WHERE t1."customerId" = ? ORDER BY t1."title"')).toEqual([]);
    expect(by('SELECT t1."id" FROM "Quote" AS t1 ORDER BY t1."id" DESC LIMIT 5')).toEqual([]);
    expect(by('SELECT t1."id" FROM "Bay" AS t1 WHERE t1."active" = ?')).toEqual([]);
  });
});
