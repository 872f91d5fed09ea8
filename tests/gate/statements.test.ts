import { encode } from "next-auth/jwt";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import Bookings from "@/app/s/[shop]/bookings/page";
import Balances from "@/app/s/[shop]/books/balances/page";
import Journal from "@/app/s/[shop]/books/journal/page";
import Tax from "@/app/s/[shop]/books/tax/page";
import Customer from "@/app/s/[shop]/customers/[id]/page";
import Statement from "@/app/s/[shop]/customers/[id]/statement/page";
import PackageFigures from "@/app/s/[shop]/figures/packages/page";
import Invoice from "@/app/s/[shop]/invoices/[id]/page";
import Remind from "@/app/s/[shop]/invoices/[id]/remind/page";
import NewInvoice from "@/app/s/[shop]/invoices/new/page";
import Invoices from "@/app/s/[shop]/invoices/page";
import Job from "@/app/s/[shop]/jobs/[id]/page";
import Jobs from "@/app/s/[shop]/jobs/page";
import Today from "@/app/s/[shop]/page";
import Quote from "@/app/s/[shop]/quotes/[id]/page";
import Preview from "@/app/s/[shop]/quotes/[id]/preview/page";
import Quotes from "@/app/s/[shop]/quotes/page";
import Check from "@/app/s/[shop]/shop/check/page";
import Part from "@/app/s/[shop]/stock/[id]/page";
import Suggested from "@/app/s/[shop]/stock/orders/suggested/page";
import { reconfigure } from "@/lib/configuration/configuration";
import { createShop } from "@/lib/data/people/createShop";
import { beginSession } from "@/lib/data/people/sessions";
import { createPerson } from "@/lib/data/people/signUp";
import { createQuote } from "@/lib/data/quotes/write";
import { prepareShop } from "@/lib/data/shop/prepare";
import { closeDirectory } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import type { ShopPlace } from "@/lib/db/servers";
import type { ShopHandle } from "@/lib/db/shop";
import { handleFor } from "@/lib/gate/handle";
import { type AboutRequest, inRequest } from "@/lib/log/request";
import { drawn } from "../support/drawn";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { makeJob } from "../support/jobs";
import { oneJob } from "../support/oneJob";
import { type Ready, readyToQuote, sentQuote } from "../support/quotes";
import { enterRate, twoShops } from "../support/shops";

let cookie: string | undefined;
vi.mock("next/headers", () => ({
  headers: async () => new Headers(),
  cookies: async () => ({ get: () => (cookie ? { value: cookie } : undefined) }),
}));

const NOW = new Date();
const SECRET = "a secret of tests, longer than thirty-two letters";
let shop: ShopHandle;
let ready: Ready;
let [job, draft, customer, part, late] = [0, 0, 0, 0, 0];

beforeAll(async () => {
  await twoShops();
  reconfigure({ NEXTAUTH_SECRET: SECRET, PUBLIC_URL: "http://localhost:3000" });
  await migrateAll();
  const owner = { name: "Owner", email: "owner@saltpan.example", password: "float and needle, seated" };
  const id = await createPerson(owner, NOW);
  const by = { personId: id, name: "Owner", role: "owner" as const, staffId: null };
  let staffId: number | null = null;
  const prepare = async (place: ShopPlace) => {
    const made = handleFor(place, by, NOW);
    ({ staffId } = await prepareShop(made, { name: "Saltpan", country: "AU" }));
  };
  const made = await createShop({ name: "Saltpan", owner: { id }, prepare }, NOW);
  shop = handleFor(made, { ...by, staffId }, NOW);
  const place = { agent: "", address: "198.51.100.7", newDevice: false };
  const sid = await beginSession({ id, email: owner.email }, place, NOW, 7);
  cookie = await encode({ token: { sub: id, sid, version: 1 }, secret: SECRET, maxAge: 3600 });
  await enterRate(shop);
  await nameShop(shop);
  ready = await readyToQuote(shop, 60);
  job = (await makeJob(shop)).id;
  await more(8);
  draft = await createQuote(shop, ready);
  customer = (await shop.read.invoice.findFirstOrThrow({ where: { state: "issued" } })).customerId ?? 0;
  part = (await shop.read.part.findFirstOrThrow({ where: { active: true } })).id;
  late = await lateInvoice();
  // What is no business of the database: hooks of components that are drawn in the browser.
  vi.spyOn(console, "error").mockImplementation(() => undefined);
}, 120_000);
afterAll(closeDirectory);

let made = 0;

/** More of everything that the pages list. */
async function more(count: number): Promise<void> {
  for (let n = 0; n < count; n++) {
    await oneJob(shop, { number: 5_000 + made++ });
    if (n % 4 === 0) await sentQuote(shop, ready);
    if (n % 8 === 0) await issuedInvoice(shop, (await readyJob(shop, ready)).jobId);
  }
}

type Page = (given: never) => unknown;

/** An invoice whose customer owes it since last year. */
async function lateInvoice(): Promise<number> {
  const { id } = await shop.read.invoice.findFirstOrThrow({ where: { state: "issued" } });
  await shop.write((tx) =>
    tx.invoice.update({ where: { id }, data: { dueOn: `${NOW.getFullYear() - 1}-03-01` } }),
  );
  return id;
}

/** Statements that one view of a page asks for, from the session's on. */
async function statements(page: Page, id = 0, asked = ""): Promise<number> {
  const about: AboutRequest = { id: "test" };
  const params = Promise.resolve({ shop: shop.slug, id: String(id) });
  const given = { params, searchParams: Promise.resolve(asked === "" ? {} : { [asked]: String(id) }) };
  await inRequest(about, () => drawn(page(given as never)));
  return about.statements ?? 0;
}

/**
 * Pages that read whole ledgers in pieces, so that others are served between, ask for more as these grow beyond what is here: the check
 * of the books, the trial balance and the journal, whose documents are read 100 at a time, and the tax summary.
 */
describe("a page asks for few statements", () => {
  const pages: [name: string, most: number, page: Page, id?: () => number, asked?: string][] = [
    ["Today", 12, Today],
    ["the jobs", 8, Jobs],
    ["a job", 12, Job, () => job],
    ["the quotes", 8, Quotes],
    ["a draft quote", 12, Quote, () => draft],
    ["the bookings", 8, Bookings],
    ["the invoices", 8, Invoices],
    ["the invoice to be made for a job", 12, NewInvoice, () => job, "job"],
    ["a quote as its customer reads it", 12, Preview, () => draft],
    ["a customer", 12, Customer, () => customer],
    ["a customer's statement", 12, Statement, () => customer],
    ["a part", 12, Part, () => part],
    ["what to order", 12, Suggested],
    ["the tax summary", 12, Tax],
    ["figures of packages", 12, PackageFigures],
    ["the journal", 12, Journal],
    ["the trial balance", 12, Balances],
    ["an unpaid invoice", 12, Invoice, () => late],
    ["the reminder to be sent", 12, Remind, () => late],
    ["the check of the books", 12, Check],
  ];
  const before = new Map<string, number>();

  it.each(pages)("%s at most %i", async (name, most, page, id, asked) => {
    before.set(name, await statements(page, id?.(), asked));
    expect(before.get(name)).toBeGreaterThan(2);
    expect(before.get(name)).toBeLessThanOrEqual(most);
  });

  it("and no more for four times as many rows", async () => {
    await more(24);
    const after = new Map<string, number>();
    for (const [name, , page, id, asked] of pages) after.set(name, await statements(page, id?.(), asked));
    expect(after).toEqual(before);
  }, 120_000);
});
