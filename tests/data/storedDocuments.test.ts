import { describe, expect, it } from "vitest";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { storedOrder } from "@/lib/data/documents/order";
import { storedQuote } from "@/lib/data/documents/quote";
import { storedVisit } from "@/lib/data/documents/visit";
import { moneyProblems } from "@/lib/data/invoices/invariants";
import { storedFacts } from "@/lib/data/quotes/keptFacts";
import { sendQuote } from "@/lib/data/quotes/send";
import { offerExtras } from "@/lib/data/quotes/terms";
import { createQuote } from "@/lib/data/quotes/write";
import type { ShopHandle } from "@/lib/db/shop";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { printedVisit, visitOf } from "@/lib/domain/schedule/visit";
import { visitWords } from "@/lib/words/visit";
import { invoiceNow, issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { ORIGIN, readyToQuote, sentQuote } from "../support/quotes";
import { twoShops } from "../support/shops";

type Json = Record<string, unknown>;

const without = (json: unknown, key: string): Json => {
  const { [key]: _, ...rest } = json as Json;
  return rest;
};

async function frozenQuote(shop: ShopHandle): Promise<Json> {
  const { revisionId } = await sentQuote(shop, await readyToQuote(shop));
  const row = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
  return row.frozen as Json;
}

async function keptFacts(shop: ShopHandle): Promise<Json> {
  const { bikeId, packageId } = await readyToQuote(shop);
  const id = await createQuote(shop, { bikeId, packageId });
  await offerExtras(shop, { id, version: 1, extras: ["check"] });
  const { revisionId } = await sendQuote(shop, { id, version: 2, origin: ORIGIN });
  const row = await shop.read.quoteRevision.findUniqueOrThrow({ where: { id: revisionId } });
  return row.facts as Json;
}

describe("a document out of the database", () => {
  it("is what went in, also with more in it than this version knows", async () => {
    const { a } = await twoShops();
    const quote = { ...(await frozenQuote(a)), printedBesides: "a later word" };
    expect(storedQuote(quote)).toEqual(quote);
    const { a: other } = await twoShops();
    await nameShop(other);
    const { jobId } = await readyJob(other);
    const { frozen } = await invoiceNow(other, await issuedInvoice(other, jobId));
    expect(storedInvoice(frozen)).toEqual(frozen);
  });

  it("that is an invoice of the first version, of one job, is read in the present shape", async () => {
    const { a } = await twoShops();
    await nameShop(a);
    const { jobId } = await readyJob(a);
    const { frozen } = await invoiceNow(a, await issuedInvoice(a, jobId));
    const now = storedInvoice(frozen);
    const { jobs: named, settlements: _, ...doc } = frozen as Json & { jobs: (Json & { bike: Json })[] };
    // Numbers of jobs and quotes were numbers until they could have a prefix.
    const jobs = named.map((one) => ({ ...one, number: Number(one.number) }));
    const rest = { ...doc, quotes: (doc.quotes as string[]).map(Number) };
    const [first] = jobs;
    if (!first) throw new Error("An invoice of no job.");
    const { bike, ...job } = first;
    const before = { ...rest, version: 1, job, bike };
    expect(storedInvoice(before)).toEqual(now);
    const credited = { ...before, credits: { number: 2001, issuedOn: "2026-11-25", reason: "Wrong bike" } };
    expect(storedInvoice(credited).credits).toMatchObject({ kind: "invoice", number: 2001 });
    expect(() => storedInvoice({ ...before, kind: "receipt" })).toThrow(/damaged.*kind/s);
    expect(() => storedInvoice({ ...before, version: 2 })).toThrow(/damaged.*jobs/s);
    const paid = { method: "cash", amountMinor: 5, roundingMinor: 0, givenMinor: 5, changeMinor: 0 };
    const second = { ...rest, jobs, version: 2, settlement: paid };
    expect(storedInvoice(second)).toEqual({ ...now, settlements: [paid] });
    expect(storedInvoice({ ...second, settlement: null })).toEqual(now);
    expect(() => storedInvoice({ ...second, version: 3 })).toThrow(/damaged.*settlements/s);
    expect(storedInvoice({ ...rest, jobs, version: 3, settlements: [paid] })).toEqual({
      ...now,
      settlements: [paid],
    });
    expect(now.jobs.map((one) => one.number)).toEqual(["601"]);
    expect(now.quotes).toEqual(["1001"]);
  });

  it("of the first version, a quote that called its alternatives ways, is brought up to date", async () => {
    const { a } = await twoShops();
    const quote = await frozenQuote(a);
    expect(quote).toMatchObject({ version: 3, number: "1001" });
    const one = {
      letter: "A",
      name: "Open road",
      choices: ["snorkel"],
      options: ["Snorkel out"],
      grossMinor: 18_480,
      depositMinor: 0,
      minutes: 96,
      settings: [],
      curve: [],
      roadUse: false,
      cautions: [],
    };
    const chosen = { letter: "A", name: "Open road" };
    expect(storedQuote({ ...quote, version: 1, number: 1001, ways: [one], way: chosen })).toEqual({
      ...quote,
      alternatives: [one],
      alternative: chosen,
    });
    expect(storedQuote({ ...quote, version: 1, number: 1001 })).toEqual(quote);
    expect(storedQuote({ ...quote, version: 2, number: 1001 })).toEqual(quote);
  });

  it("is refused where it is another one, of a version that is not known, or damaged, with the place", async () => {
    const { a } = await twoShops();
    const quote = await frozenQuote(a);
    expect(() => storedQuote(null)).toThrow("This is not a frozen quote.");
    expect(() => storedInvoice(quote)).toThrow("This is not an issued document.");
    expect(() => storedOrder(quote)).toThrow("This is not a printed order.");
    expect(() => storedQuote({ ...quote, version: 99 })).toThrow("a frozen quote of version 99");
    expect(() => storedQuote(without(quote, "grossMinor"))).toThrow(/damaged.*grossMinor/s);
    expect(() => storedQuote({ ...quote, lines: [{ key: "x" }] })).toThrow(/damaged.*lines/s);
    expect(() => storedQuote({ ...quote, grossMinor: "12" })).toThrow(/damaged.*grossMinor/s);
    expect(() => storedQuote({ ...quote, grossMinor: 12.5 })).toThrow(/damaged.*grossMinor/s);
  });

  it("that is an invoice and damaged is told of by the check of the books, beside the others", async () => {
    const { a } = await twoShops();
    await nameShop(a);
    const { jobId } = await readyJob(a);
    const id = await issuedInvoice(a, jobId);
    const { frozen, number } = await invoiceNow(a, id);
    expect(await moneyProblems(a)).toEqual([]);
    // Only someone who goes past the product can do this: the database refuses it otherwise.
    await a.write(async (tx) => {
      const drop = process.env.DATABASE_URL ? ` ON "${a.database}"."Invoice"` : "";
      await tx.$executeRawUnsafe(`DROP TRIGGER "Invoice_never_changes"${drop}`);
      await tx.invoice.update({ where: { id }, data: { frozen: without(frozen, "lines") as never } });
    });
    expect(await moneyProblems(a)).toEqual([`Invoice ${number} cannot be read any more.`]);
  });
});

describe("the facts kept with a quote", () => {
  it("come out as they went in, and compute the same", async () => {
    const { a } = await twoShops();
    const kept = await keptFacts(a);
    expect(kept).toMatchObject({ format: "throttlewright-quote-facts", version: 2 });
    const facts = storedFacts(kept);
    const { format: _f, version: _v, ...bare } = kept;
    expect(facts).toEqual(bare);
    if (!facts) throw new Error("Facts are kept with extras.");
    expect(computeQuote(facts).price.grossMinor).toBeGreaterThan(0);
  });

  it("that were kept before they named a format are brought up to date, their recipe too", async () => {
    const { a } = await twoShops();
    const kept = await keptFacts(a);
    const recipe = kept.recipe as { operations: object[] };
    const old = {
      ...without(without(without(kept, "format"), "version"), "today"),
      recipe: {
        ...recipe,
        version: 1,
        operations: recipe.operations.map((operation) => without(operation, "inspects")),
      },
      parts: (kept.parts as object[]).map((part) => without(without(part, "coming"), "priceUntil")),
    };
    const facts = storedFacts(old);
    const now = storedFacts(kept);
    if (!facts || !now) throw new Error("Facts are kept with extras.");
    expect(facts).toMatchObject({ today: null, recipe: { version: 2 } });
    expect(facts.parts.every((part) => part.coming.length === 0 && part.priceUntil === null)).toBe(true);
    expect(computeQuote(facts).price.grossMinor).toBe(computeQuote(now).price.grossMinor);
  });

  it("are refused where they are damaged or from a later version, and are none where none were kept", async () => {
    const { a } = await twoShops();
    const kept = await keptFacts(a);
    expect(storedFacts(null)).toBeNull();
    expect(() => storedFacts({ ...kept, version: 3 })).toThrow("a quote's facts of version 3");
    expect(() => storedFacts(without(kept, "terms"))).toThrow(/damaged.*terms/s);
    expect(() => storedFacts({ ...kept, recipe: { format: "x" } })).toThrow(/damaged.*recipe/s);
    expect(() => storedFacts({ ...kept, grades: [{ code: "w", ratePerHourMinor: null }] })).toThrow(
      /damaged.*grades/s,
    );
  });
});

describe("a visit kept with a mail", () => {
  it("is read with and without its format", () => {
    const now = new Date("2026-11-25T00:30:00Z");
    const booking = { id: 4, version: 2, startsAt: now, endsAt: now, dropOffAt: null, pickUpAt: null };
    const place = { name: "Saltpan", address: "Dock 4", phone: "" };
    const printed = printedVisit(
      visitOf(booking, {
        slug: "saltpan",
        bike: "Tarrant",
        job: { number: "601", title: "Jets" },
        place,
        said: visitWords("en-AU"),
      }),
      false,
      now,
    );
    expect(storedVisit(printed)).toEqual({ format: "throttlewright-visit", version: 1, ...printed });
    expect(storedVisit(storedVisit(printed))).toEqual(storedVisit(printed));
    expect(() => storedVisit({ ...printed, startsAt: "soon" })).toThrow(/damaged.*startsAt/s);
    expect(() => storedVisit(null)).toThrow("damaged");
  });
});
