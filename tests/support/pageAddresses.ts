import { shopAddresses } from "./routes";

/** What stands in an address where 1 would not do: a word, two sheets, a record in the state the page is for. */
const ELSEWHERE: Record<string, string | { list: string; from: RegExp; to: string }> = {
  "/s/saltpan/bench/procedures/1": "/s/saltpan/bench/procedures/float-height-by-gauge",
  "/s/saltpan/books/accounts/1": "/s/saltpan/books/accounts/1100",
  "/s/saltpan/import/1": "/s/saltpan/import/customers",
  "/s/saltpan/shop/letters/1": "/s/saltpan/shop/letters/yes",
  "/s/saltpan/arrivals/new": "/s/saltpan/arrivals/new?bike=1",
  "/s/saltpan/bikes/1/sheets/compare": "/s/saltpan/bikes/1/sheets/compare?a=1&b=2",
  "/s/saltpan/packages/1/edit/1": "/s/saltpan/packages/1/edit/options",
  "/s/saltpan/jobs/1/card": {
    list: "/s/saltpan/jobs?state=inWork",
    from: /\/jobs\/(\d+)$/,
    to: "/s/saltpan/jobs/$/card",
  },
  "/s/saltpan/jobs/1/found": {
    list: "/s/saltpan/jobs?state=inWork",
    from: /\/jobs\/(\d+)$/,
    to: "/s/saltpan/jobs/$/found",
  },
  "/s/saltpan/invoices/new": {
    list: "/s/saltpan/jobs?state=ready",
    from: /\/jobs\/(\d+)$/,
    to: "/s/saltpan/invoices/new?job=",
  },
  "/s/saltpan/invoices/1/remind": {
    list: "/s/saltpan/invoices?state=late",
    from: /\/invoices\/(\d+)$/,
    to: "/s/saltpan/invoices/$/remind",
  },
  "/s/saltpan/invoices/1/credit": {
    list: "/s/saltpan/invoices?state=unpaid",
    from: /\/invoices\/(\d+)$/,
    to: "/s/saltpan/invoices/$/credit",
  },
  "/s/saltpan/quotes/1/alternatives": {
    list: "/s/saltpan/quotes?state=draft",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$/alternatives",
  },
  "/s/saltpan/quotes/1/reasons": {
    list: "/s/saltpan/quotes?state=draft",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$/reasons",
  },
  "/s/saltpan/quotes/1/work": {
    list: "/s/saltpan/quotes?state=draft",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$/work?kind=written",
  },
  "/s/saltpan/quotes/1/preview": {
    list: "/s/saltpan/quotes?state=draft",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$/preview",
  },
  "/s/saltpan/quotes/1/yes": {
    list: "/s/saltpan/quotes?state=sent",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$/yes",
  },
  "/s/saltpan/quotes/1/compare": {
    list: "/s/saltpan/quotes?state=draft",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$/compare",
  },
};

/** Pages that look otherwise in another state of their record. */
const OTHERWISE: typeof ELSEWHERE = {
  "a draft quote": {
    list: "/s/saltpan/quotes?state=draft",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$",
  },
  "an accepted quote": {
    list: "/s/saltpan/quotes?state=accepted",
    from: /\/quotes\/(\d+)$/,
    to: "/s/saltpan/quotes/$",
  },
  "a job in work": {
    list: "/s/saltpan/jobs?state=inWork",
    from: /\/jobs\/(\d+)$/,
    to: "/s/saltpan/jobs/$",
  },
  "the kept card of a job in work": {
    list: "/s/saltpan/jobs?state=inWork",
    from: /\/jobs\/(\d+)$/,
    to: "/s/saltpan/jobs/$/card/kept",
  },
  "an unpaid invoice": {
    list: "/s/saltpan/invoices?state=unpaid",
    from: /\/invoices\/(\d+)$/,
    to: "/s/saltpan/invoices/$",
  },
};

/** Every page of the demo shop, as addresses with `1` for each id. */
export const SHOP_PAGES = shopAddresses("saltpan").filter((address) => address.startsWith("/s/"));

/** More of its pages, each in another state of its record. */
export const SHOP_PAGES_OTHERWISE = Object.keys(OTHERWISE);

/** Pages of a person. */
export const PERSON_PAGES = ["/account", "/account/security", "/account/devices"];

/** Pages that are shown before anybody has signed in. */
export const PUBLIC_PAGES = [
  "/",
  "/signin",
  "/signup",
  "/signup/sent",
  "/signup/no-such-token",
  "/reset",
  "/join/no-such-invitation",
  "/new-password/no-such-token",
];

/** Where the page at `address` is really found in the demo; `html` answers the text of another page of it. */
export async function addressOf(address: string, html: (path: string) => Promise<string>): Promise<string> {
  const other = ELSEWHERE[address] ?? OTHERWISE[address];
  if (other === undefined || typeof other === "string") return other ?? address;
  const text = await html(other.list);
  for (const [, href = ""] of text.slice(text.indexOf("<main")).matchAll(/ href="([^"]+)"/g)) {
    const id = other.from.exec(href)?.[1];
    if (id) return other.to.includes("$") ? other.to.replace("$", id) : other.to + id;
  }
  throw new Error(`Nothing on ${other.list} leads to ${address}.`);
}
