import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { depositLeftOf, movedMinor, type PaidRow, settled } from "@/lib/domain/invoices/held";
import { outstanding } from "@/lib/domain/invoices/state";
import { ACCOUNT_USES, type AccountUse, fitsUse } from "@/lib/domain/ledger/accounts";
import { booker } from "@/lib/domain/ledger/book";
import { startingChart } from "@/lib/domain/ledger/charts";
import { type DocumentIssued, inOrder, type LedgerEvent, type MoneyMoved } from "@/lib/domain/ledger/events";
import { netsOf } from "@/lib/domain/ledger/nets";
import { poster } from "@/lib/domain/ledger/post";
import { trial, yearFrom } from "@/lib/domain/ledger/trial";
import { FULL } from "../support/size";

const RUNS = FULL ? 1000 : 100;
const STEP = 5;

interface Invoice {
  id: number;
  jobs: number[];
  grossMinor: number;
  prepaidMinor: number;
  paidMinor: number;
  credited: boolean;
  leftToCredit: number;
}
type Row = PaidRow & { id: number; job: number; invoice: number | null; method: string };

/** A small shop that follows the rules of lib/data, as an oracle: what is owed and held is kept as the product keeps it. */
class Shop {
  readonly events: LedgerEvent[] = [];
  readonly invoices: Invoice[] = [];
  readonly rows: Row[] = [];
  tax = 0;
  private id = 0;
  day = 0;

  private readonly date = () => new Date(Date.UTC(2025, 0, 1 + this.day)).toISOString().slice(0, 10);
  private readonly of = () => ({
    id: ++this.id,
    source: { noun: "job" as const, id: 1 },
    day: this.date(),
    customer: { id: 1, name: "Oda Fenn" },
  });
  readonly standing = (job: number) => this.invoices.find((one) => !one.credited && one.jobs.includes(job));
  readonly held = (job: number) => depositLeftOf(this.rows.filter((row) => row.job === job));
  readonly left = ({ credited, ...one }: Invoice) =>
    outstanding({ ...one, kind: "invoice", state: "issued", dueOn: null, credited });

  private document(
    doc: Pick<DocumentIssued, "kind" | "position" | "prepaidMinor" | "closes">,
    gross: number,
  ) {
    const taxMinor = Math.round(gross / 5);
    const parts = Math.trunc((gross - taxMinor) / 3);
    const nets = [
      { category: "S", rateBp: 2500, workMinor: gross - taxMinor - parts, partsMinor: parts, taxMinor },
    ];
    this.tax += taxMinor;
    this.events.push({ ...this.of(), is: "document", written: "1", grossMinor: gross, nets, ...doc });
  }

  private money(row: Omit<Row, "id">, position: MoneyMoved["position"]) {
    const of = this.of();
    this.rows.push({ ...row, id: of.id });
    this.events.push({ ...of, is: "payment", ...row, position, about: "", reference: "" });
    const invoice = this.invoices.find((one) => one.id === row.invoice);
    if (invoice) invoice.paidMinor += settled(row);
  }

  take(kind: Row["kind"], job: number, amount: number, method: string) {
    const invoice = this.standing(job) ?? null;
    const position = invoice ? (`invoice:${invoice.id}` as const) : null;
    // Cash is counted in coins; what rounding adds or takes is kept apart.
    const roundingMinor = method === "cash" ? Math.round(amount / STEP) * STEP - amount : 0;
    const amountMinor = amount + roundingMinor;
    this.money({ kind, job, invoice: invoice?.id ?? null, method, amountMinor, roundingMinor }, position);
  }

  invoice(jobs: number[], grossMinor: number) {
    const prepaidMinor = jobs.reduce((sum, job) => sum + this.held(job), 0);
    const id = this.id + 1;
    const position = `invoice:${id}` as const;
    this.document({ kind: "invoice", position, prepaidMinor, closes: false }, grossMinor);
    const money = { paidMinor: 0, credited: false, leftToCredit: grossMinor };
    this.invoices.push({ id, jobs, grossMinor, prepaidMinor, ...money });
  }

  credit(invoice: Invoice, minor: number) {
    invoice.paidMinor += minor;
    invoice.leftToCredit -= minor;
    invoice.credited = invoice.leftToCredit === 0;
    const position = `invoice:${invoice.id}` as const;
    this.document({ kind: "creditNote", position, prepaidMinor: 0, closes: invoice.credited }, 0 - minor);
  }

  /** Sold, perhaps taken back or invoiced in full: all of it on one position. */
  sale(grossMinor: number, then: "stands" | "back" | "full") {
    const position = `sale:${this.id + 1}` as const;
    this.document({ kind: "receipt", position, prepaidMinor: 0, closes: false }, grossMinor);
    const row = { job: -1, invoice: null, method: "card", amountMinor: grossMinor, roundingMinor: 0 };
    this.money({ ...row, kind: "payment" }, position);
    if (then === "stands") return;
    this.document({ kind: "creditNote", position, prepaidMinor: 0, closes: true }, 0 - grossMinor);
    if (then === "back") this.money({ ...row, kind: "refund" }, position);
    else this.document({ kind: "invoice", position, prepaidMinor: grossMinor, closes: false }, grossMinor);
  }
}

const ACTS = [
  "deposit",
  "invoice",
  "pay",
  "over",
  "credit",
  "refund",
  "writeOff",
  "bounce",
  "balance",
  "sale",
] as const;
const act = fc.record({
  act: fc.constantFrom(...ACTS),
  job: fc.integer({ min: 0, max: 3 }),
  also: fc.integer({ min: 0, max: 3 }),
  amount: fc.integer({ min: 1, max: 90_000 }),
  share: fc.double({ min: 0, max: 1, noNaN: true }),
  method: fc.constantFrom("cash", "card", "transfer"),
  days: fc.constantFrom(0, 0, 0, 1, 40),
});
type Act = typeof act extends fc.Arbitrary<infer T> ? T : never;

/** Does what the product would take; what it would refuse is left out. */
function perform(shop: Shop, { act, job, also, amount, share, method, days }: Act): void {
  shop.day += days;
  const invoice = shop.standing(job);
  const left = invoice ? shop.left(invoice) : 0;
  const part = (whole: number) => Math.max(1, Math.round(whole * share));
  const deeds: Record<Act["act"], () => void> = {
    deposit: () => {
      if (!invoice) shop.take("deposit", job, amount, method);
    },
    invoice: () => {
      const jobs = [...new Set([job, also])];
      if (!jobs.some(shop.standing)) shop.invoice(jobs, amount);
    },
    pay: () => {
      if (left > 0) shop.take("payment", job, part(left), method);
    },
    over: () => {
      if (left <= 0) return;
      shop.take("payment", job, left, "transfer");
      shop.take("overpayment", job, amount, "transfer");
    },
    credit: () => {
      if (!invoice || shop.rows.some((row) => row.kind === "writeOff" && row.invoice === invoice.id)) return;
      shop.credit(invoice, share > 0.5 ? invoice.leftToCredit : part(invoice.leftToCredit));
    },
    refund: () => {
      if (shop.held(job) > 0) shop.take("refund", job, part(shop.held(job)), method);
    },
    writeOff: () => {
      if (left > 0) shop.take("writeOff", job, part(left), "");
    },
    bounce: () => {
      const paid = shop.rows.find(
        (row) => row.job === job && row.kind === "payment" && row.method === "card",
      );
      if (paid && shop.held(job) >= settled(paid)) shop.take("bounced", job, paid.amountMinor, "card");
    },
    balance: () => {
      const other = shop.standing(also);
      if (left >= 0 || !other || other === invoice || shop.left(other) <= 0) return;
      const moved = Math.min(0 - left, shop.left(other), Math.max(0, shop.held(job)));
      if (moved <= 0) return;
      shop.take("refund", job, moved, "balance");
      shop.take("payment", also, moved, "balance");
    },
    sale: () => shop.sale(amount, share < 0.3 ? "back" : share < 0.6 ? "full" : "stands"),
  };
  deeds[act]();
}

const histories = fc.array(act, { minLength: 1, maxLength: 40 });
const shopAfter = (acts: Act[]) => {
  const shop = new Shop();
  for (const one of acts) perform(shop, one);
  return shop;
};
const chart = startingChart("AU");

describe("the journal of a random history", () => {
  it("balances entry by entry and day by day; what is owed, held and taxed stands on its accounts", () => {
    fc.assert(
      fc.property(histories, (acts) => {
        const shop = shopAfter(acts);
        const post = poster();
        const sums = Object.fromEntries(ACCOUNT_USES.map((use) => [use, 0])) as Record<AccountUse, number>;
        const days = new Map<string, number>();
        for (const event of [...shop.events].sort(inOrder)) {
          const { lines } = post(event);
          const total = lines.reduce((sum, line) => sum + line.minor, 0);
          expect(total).toBe(0);
          days.set(event.day, (days.get(event.day) ?? 0) + total);
          for (const line of lines) sums[line.use] += line.minor;
        }
        expect([...days.values()].every((sum) => sum === 0)).toBe(true);
        const lefts = shop.invoices.map(shop.left);
        expect(sums.receivable).toBe(lefts.reduce((sum, left) => sum + Math.max(0, left), 0));
        expect(0 - sums.customerBalance).toBe(lefts.reduce((sum, left) => sum + Math.max(0, 0 - left), 0));
        const jobs = [0, 1, 2, 3].filter((job) => !shop.standing(job));
        expect(0 - sums.deposits).toBe(jobs.reduce((sum, job) => sum + shop.held(job), 0));
        expect(0 - sums.tax).toBe(shop.tax);
        for (const method of ["cash", "card", "transfer"] as const)
          expect(sums[method]).toBe(
            shop.rows
              .filter((row) => row.method === method && row.kind !== "writeOff")
              .reduce((sum, row) => sum + movedMinor(row), 0),
          );
      }),
      { numRuns: RUNS },
    );
  });

  it("says of a day only what is dated until then: later events change nothing before them", () => {
    fc.assert(
      fc.property(histories, fc.nat(60), (acts, at) => {
        const all = [...shopAfter(acts).events].sort(inOrder);
        const until = all[at % all.length]?.day ?? "";
        const posted = (events: LedgerEvent[]) => {
          const post = poster();
          return events.map((event) => post(event).lines);
        };
        const early = all.filter((event) => event.day <= until);
        expect(posted(early)).toEqual(posted(all).slice(0, early.length));
      }),
      { numRuns: RUNS },
    );
  });

  it("adds up by account over any range: openings, movements and closings to nothing, one range going on from another", () => {
    const day = fc
      .integer({ min: 0, max: 700 })
      .map((n) => new Date(Date.UTC(2024, 11, 1 + n)).toISOString().slice(0, 10));
    fc.assert(
      fc.property(histories, fc.tuple(day, day, day), (acts, days) => {
        const [first = "", middle = "", last = ""] = [...days].sort();
        const events = [...shopAfter(acts).events].sort(inOrder);
        const of = (from: string, to: string) => {
          const [post, book] = [poster(), booker(chart)];
          const sums = trial(chart, { startsOn: null, opening: new Map(), yearMonth: 7 }, { from, to });
          for (const event of events) sums.add(book(post(event)));
          return sums.rows();
        };
        const whole = of(first, last);
        for (const what of ["openingMinor", "closingMinor"] as const)
          expect(whole.reduce((sum, row) => sum + row[what], 0)).toBe(0);
        expect(whole.reduce((sum, row) => sum + row.debitMinor - row.creditMinor, 0)).toBe(0);
        const before = of("0001-01-01", middle);
        const after = of(new Date(Date.parse(middle) + 86_400_000).toISOString().slice(0, 10), "9999-12-31");
        // Income and expense of years before are on the account of prior results, all other accounts go on.
        for (const [at, { account, closingMinor }] of before.entries())
          if (account.kind === "asset" || account.kind === "liability")
            expect(after[at]?.openingMinor, account.code).toBe(closingMinor);
      }),
      { numRuns: RUNS },
    );
  });
});

describe("an invoice that is paid and wholly credited on one day", () => {
  it("leaves its money held for the job, as a deposit is, and comes off the next invoice", () => {
    const shop = new Shop();
    shop.invoice([0], 1000);
    shop.take("payment", 0, 1000, "card");
    const first = shop.standing(0);
    if (first) shop.credit(first, 1000);
    const post = poster();
    const sums: Record<string, number> = {};
    const add = () => {
      for (const event of shop.events.splice(0).sort(inOrder))
        for (const { use, minor } of post(event).lines) sums[use] = (sums[use] ?? 0) + minor;
    };
    add();
    expect(sums).toMatchObject({ card: 1000, deposits: -1000, receivable: 0, tax: 0 });
    shop.invoice([0], 1500);
    add();
    expect(sums).toMatchObject({ card: 1000, deposits: 0, receivable: 500, tax: -300 });
  });
});

describe("what a document charges", () => {
  const line = (
    kind: "labour" | "part" | "discount",
    netMinor: number,
    taxCategory = "S",
    taxRateBp = 2500,
  ) => ({
    ...{
      key: "k",
      name: "n",
      quantityMilli: 1000,
      unit: "each",
      unitPriceE4: 0,
      shownMinor: netMinor,
      because: [],
    },
    ...{ kind, netMinor, taxCategory, taxRateBp },
  });
  const tax = (taxableMinor: number, taxMinor: number, category = "S", rateBp = 2500) => ({
    ...{ name: "MVA 25 %", category, rateBp, taxableMinor, taxMinor },
  });

  it("is work and parts by category, a discount shared out over both", () => {
    const doc = {
      lines: [
        line("labour", 60_000),
        line("part", 30_000),
        line("discount", -9_000),
        line("part", 500, "Z", 0),
      ],
      taxes: [tax(81_000, 20_250), tax(500, 0, "Z", 0)],
    };
    expect(netsOf(doc)).toEqual([
      { category: "S", rateBp: 2500, workMinor: 54_000, partsMinor: 27_000, taxMinor: 20_250 },
      { category: "Z", rateBp: 0, workMinor: 0, partsMinor: 500, taxMinor: 0 },
    ]);
  });

  it("is mirrored by its credit note, to the cent", () => {
    fc.assert(
      fc.property(fc.nat(99_999), fc.nat(99_999), fc.nat(999), (work, parts, off) => {
        const net = work + parts - Math.min(off, work + parts);
        const lines = [line("labour", work), line("part", parts), line("discount", net - work - parts)];
        const [once] = netsOf({ lines, taxes: [tax(net, 7)] });
        const mirrored = lines.map((one) => ({ ...one, netMinor: 0 - one.netMinor }));
        const [back] = netsOf({ lines: mirrored, taxes: [tax(0 - net, -7)] });
        expect((once?.workMinor ?? 0) + (once?.partsMinor ?? 0)).toBe(net);
        expect([
          (once?.workMinor ?? 0) + (back?.workMinor ?? 0),
          (once?.partsMinor ?? 0) + (back?.partsMinor ?? 0),
        ]).toEqual([0, 0]);
      }),
      { numRuns: RUNS },
    );
  });
});

describe("stock at cost", () => {
  it("goes against what the move was: received, used, there at the start, or a difference", () => {
    const post = poster();
    const of = {
      id: 1,
      day: "2026-11-02",
      customer: null,
      is: "stock",
      about: "",
      source: { noun: "stock", id: 0 },
    } as const;
    const lines = (["received", "used", "opening", "difference"] as const).map((cause) =>
      post({ ...of, cause, valueMinor: cause === "used" ? -1250 : 500 }).lines.map(({ use, minor }) => [
        use,
        minor,
      ]),
    );
    expect(lines).toEqual([
      [
        ["stock", 500],
        ["goodsReceived", -500],
      ],
      [
        ["stock", -1250],
        ["costOfGoods", 1250],
      ],
      [
        ["stock", 500],
        ["openingStock", -500],
      ],
      [
        ["stock", 500],
        ["stockDifferences", -500],
      ],
    ]);
  });
});

describe("the drawer", () => {
  it("counted: what is over or short is a difference, what leaves it goes on its way", () => {
    const of = { id: 1, day: "2026-11-02", source: { noun: "endOfDay", id: 1 }, customer: null } as const;
    const post = poster();
    const { lines } = post({
      ...of,
      is: "drawer",
      what: "count",
      differenceMinor: -50,
      movedMinor: -12_000,
      reason: "",
    });
    expect(lines).toEqual([
      { use: "cash", minor: -12_050 },
      { use: "cashDifference", minor: 50 },
      { use: "drawerMoves", minor: 12_000 },
    ]);
  });
});

describe("a starting chart", () => {
  for (const country of ["NO", "AU", "NZ", "GB", "DE", "US"])
    it(`of ${country} has one fitting account for every use, and no code twice`, () => {
      const { accounts, uses } = startingChart(country);
      expect(new Set(accounts.map((one) => one.code)).size).toBe(accounts.length);
      for (const use of ACCOUNT_USES) {
        const account = accounts.find((one) => one.code === uses[use]);
        expect(account && fitsUse(use, account.kind), use).toBe(true);
      }
    });

  it("of Norway names the tax office's group for each account", () => {
    expect(startingChart("NO").accounts.filter((one) => !one.groupCategory || !one.groupCode)).toEqual([]);
  });
});

describe("the year of the books", () => {
  it("begins in the month that is set", () => {
    expect(yearFrom("2026-06-30", 7)).toBe("2025-07-01");
    expect(yearFrom("2026-07-01", 7)).toBe("2026-07-01");
    expect(yearFrom("2026-12-31", 1)).toBe("2026-01-01");
  });

  it("starts with what was entered as opening balances, and books nothing before that day", () => {
    const opening = new Map([
      ["1010", 5000],
      ["3100", -5000],
    ]);
    const sums = trial(
      chart,
      { startsOn: "2026-07-01", opening, yearMonth: 7 },
      { from: "2026-01-01", to: "2026-12-31" },
    );
    const [post, book] = [poster(), booker(chart)];
    const paid = {
      id: 1,
      source: { noun: "job", id: 1 },
      customer: null,
      is: "payment",
      kind: "deposit",
      method: "transfer",
      amountMinor: 100,
    } as const;
    for (const day of ["2026-06-30", "2026-07-01"]) {
      const event = {
        ...paid,
        day,
        roundingMinor: 0,
        position: null,
        about: "job 1",
        reference: "",
      };
      sums.add(book(post(event)));
    }
    const bank = sums.rows().find((row) => row.account.code === "1010");
    expect([sums.from, bank?.openingMinor, bank?.debitMinor, bank?.closingMinor]).toEqual([
      "2026-07-01",
      5000,
      100,
      5100,
    ]);
  });
});
