import { beforeAll, describe, expect, it } from "vitest";
import { cancelJob } from "@/lib/data/bookings/cancelJob";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { getCard } from "@/lib/data/jobs/card";
import { addFinding } from "@/lib/data/jobs/findings";
import { draftOf } from "@/lib/data/jobs/sheets";
import { addToDrafts } from "@/lib/data/orders/draft";
import { getOrder } from "@/lib/data/orders/list";
import { placeOrder } from "@/lib/data/orders/place";
import { printedOrderIn } from "@/lib/data/orders/printed";
import { receiveOrder } from "@/lib/data/orders/receive";
import { handoverForPaper } from "@/lib/data/papers/handover";
import { sentQuotePaper } from "@/lib/data/papers/quote";
import { sheetForPaper } from "@/lib/data/papers/sheet";
import { recordRefund } from "@/lib/data/payments/record";
import { senderIn } from "@/lib/data/shop/sender";
import { recordMove } from "@/lib/data/stock/moves";
import { getToday } from "@/lib/data/today/today";
import type { ShopHandle } from "@/lib/db/shop";
import { dayText } from "@/lib/documents/format";
import { invoicePdf } from "@/lib/documents/invoice";
import { jobCardPdf } from "@/lib/documents/jobCard";
import { orderPdf } from "@/lib/documents/order";
import { quotePdf } from "@/lib/documents/quote";
import { settingSheetPdf } from "@/lib/documents/settingSheet";
import { twoShops } from "../support/shops";
import type { Bench, Wish } from "../support/week/acts";
import * as bookedActs from "../support/week/acts";
import * as ordinaryActs from "../support/week/ordinary";
import { readCard } from "../support/week/readCard";
import { readHandover } from "../support/week/readHandover";
import { type InvoiceText, readInvoice } from "../support/week/readInvoice";
import { readPrint, readWords } from "../support/week/readPrint";
import { type QuoteText, readQuote } from "../support/week/readQuote";
import { readSale } from "../support/week/readSale";
import { readAsLeft } from "../support/week/readSheets";
import { readLedgers, readOrder } from "../support/week/readStock";
import { type WeekShop, weekShop } from "../support/week/shops";

const SEED = 20_261_130;
const EVERYTHING = { quotes: true, invoices: true, stock: true };

/** The same act, followed by a look at the books: whatever was done, they add up. */
const summed =
  <A extends readonly unknown[], R>(act: (bench: Bench, ...rest: A) => Promise<R>) =>
  async (bench: Bench, ...rest: A): Promise<R> => {
    const done = await act(bench, ...rest);
    await evening({ bench });
    return done;
  };
const acts = {
  arrive: summed(bookedActs.arrive),
  bookFirst: summed(bookedActs.bookFirst),
  deposit: summed(bookedActs.deposit),
  finish: summed(bookedActs.finish),
  invoice: summed(bookedActs.invoice),
  payByCard: summed(bookedActs.payByCard),
  payInCash: summed(bookedActs.payInCash),
  quote: summed(bookedActs.quote),
  ride: summed(bookedActs.ride),
  work: summed(bookedActs.work),
  yes: summed(bookedActs.yes),
};
const ordinary = {
  broughtBack: summed(ordinaryActs.broughtBack),
  closedFree: summed(ordinaryActs.closedFree),
  comeback: summed(ordinaryActs.comeback),
  counter: summed(ordinaryActs.counter),
  hourly: summed(ordinaryActs.hourly),
  no: summed(ordinaryActs.no),
  noShow: summed(ordinaryActs.noShow),
  walkIn: summed(ordinaryActs.walkIn),
  workPlain: summed(ordinaryActs.workPlain),
};

/** Sends a quote and reads it, as it is kept and as it is printed. */
async function sentAndRead({ bench }: WeekShop, wish: Wish): Promise<number> {
  const { quoteId, revisionId } = await acts.quote(bench, wish);
  const found = await readQuote(bench.shop, revisionId);
  const paper = await sentQuotePaper(bench.shop, quoteId);
  if (!paper) throw new Error("A sent quote has no paper.");
  const text = paper as unknown as QuoteText;
  const { country } = await settingsOf(bench.shop);
  const sums = [text.grossMinor, ...text.taxes.map((tax) => tax.taxMinor), text.depositMinor];
  found.push(...(await readPrint(await quotePdf(paper, country), `Quote ${text.number}`, text, sums)));
  expect(found).toEqual([]);
  return revisionId;
}

const settingsOf = (shop: ShopHandle) => shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });

/** Reads an issued document, as it is kept and as it is printed. */
async function issuedAndRead({ bench }: WeekShop, id: number, paymentsBefore?: number): Promise<InvoiceText> {
  const found = await readInvoice(bench.shop, id, paymentsBefore);
  const { frozen } = await bench.shop.read.invoice.findUniqueOrThrow({ where: { id } });
  const doc = storedInvoice(frozen);
  const text = doc as unknown as InvoiceText;
  const sums = [text.grossMinor, ...text.taxes.map((tax) => tax.taxMinor), Math.abs(text.dueMinor)];
  found.push(...(await readPrint(await invoicePdf(doc), `${text.kind} ${text.number}`, text, sums)));
  expect(found).toEqual([]);
  return text;
}

async function cardRead({ bench }: WeekShop, jobId: number): Promise<void> {
  const card = await getCard(bench.shop, jobId);
  if (!card) throw new Error("A job has no card.");
  const minutes = card.steps.reduce((sum, step) => sum + step.minutes, 0);
  const paper = { ...card, minutes, day: bench.today, shop: await senderIn(bench.shop.read) };
  const found = await readCard(bench.shop, jobId, paper);
  const words = card.steps.flatMap((step) => [step.name, ...step.parts.map((one) => one.part.code)]);
  found.push(...(await readWords(await jobCardPdf(paper), `Card ${card.number}`, words)));
  expect(found).toEqual([]);
}

async function asLeftRead({ bench }: WeekShop, jobId: number, odometerKm: number | null): Promise<void> {
  const { id } = await bench.shop.read.settingSheet.findFirstOrThrow({ where: { jobId, kind: "asLeft" } });
  const sheet = await sheetForPaper(bench.shop, id);
  if (!sheet) throw new Error("A sheet has no paper.");
  const found = await readAsLeft(bench.shop, jobId, sheet, { odometerKm, idleSpeedRpm: bookedActs.IDLE });
  const sender = await senderIn(bench.shop.read);
  const { locale } = sender;
  const paper = { ...sheet, dayText: dayText(sheet.day, locale), shop: sender };
  const words = [String(sheet.job), sheet.plate, new Intl.NumberFormat(locale).format(bookedActs.IDLE)];
  found.push(...(await readWords(await settingSheetPdf(paper), "As-left sheet", words)));
  expect(found).toEqual([]);
  await handoverRead(bench.shop, jobId, odometerKm);
}

async function handoverRead(shop: ShopHandle, jobId: number, odometerKm: number | null): Promise<void> {
  const handover = await handoverForPaper(shop, jobId);
  if (!handover) throw new Error("A job has no handover.");
  expect(await readHandover(shop, jobId, handover, odometerKm)).toEqual([]);
}

async function orderRead({ bench }: WeekShop, orderId: number): Promise<void> {
  const order = await getOrder(bench.shop, orderId, true);
  if (!order) throw new Error("There is no such order.");
  const printed = await bench.shop.write((tx) => printedOrderIn(tx, orderId, bench.today));
  const found = [
    ...(await readOrder(bench.shop, orderId, order)),
    ...(await readOrder(bench.shop, orderId, printed)),
    ...(await readWords(
      await orderPdf(printed),
      `Order ${order.number}`,
      order.lines.map((line) => line.part.code),
    )),
  ];
  expect(found).toEqual([]);
}

async function evening({ bench }: Pick<WeekShop, "bench">): Promise<void> {
  expect(await problemsOf(bench.shop)).toEqual([]);
  expect(await readLedgers(bench.shop)).toEqual([]);
}

const felt = (sign: "rich" | "lean") =>
  [{ throttle: "full", condition: "steady", engine: "hot", sign, note: "" }] as const;

/** A working week of one shop, each paper read as it is made and the books each evening. */
async function playWeek(week: WeekShop): Promise<void> {
  const { bench, packageId, coin } = week;
  const [one, two, three] = week.bikes;
  const odometer = async (bikeId: number) => {
    const { odometerKm } = await bench.shop.read.bike.findUniqueOrThrow({ where: { id: bikeId } });
    return (odometerKm ?? 0) + bench.chance.between(5, 60);
  };
  const jobOf = (jobId: number) =>
    bench.shop.read.job.findUniqueOrThrow({ where: { id: jobId }, include: { revision: true } });

  // Monday: three quotes, two of them agreed at once, filters ordered.
  const first = await acts.yes(bench, await sentAndRead(week, { bikeId: one, packageId }));
  await acts.deposit(bench, first, (await jobOf(first)).revision.depositMinor);
  await acts.bookFirst(bench, first);
  const second = await acts.yes(
    bench,
    await sentAndRead(week, {
      bikeId: two,
      packageId,
      take: ["needle", "check"],
      lines: [
        { kind: "text", name: "Collected from the coast", price: "40" },
        { kind: "outside", name: "Header weld", price: "88" },
      ],
      off: [
        { line: "BF-20", percent: 20 },
        { line: "work-bench", percent: 12 },
      ],
    }),
  );
  await acts.bookFirst(bench, second);
  const third = await acts.yes(
    bench,
    await sentAndRead(week, { bikeId: three, packageId, leave: ["breather"] }),
  );
  await acts.deposit(bench, third, (await jobOf(third)).revision.depositMinor);
  await acts.bookFirst(bench, third);
  // Somebody books a time and never comes: bay and person are free again, and nothing is owed.
  const missed = await ordinary.noShow(bench, "Halvard Moe");
  const { state } = await bench.shop.read.booking.findUniqueOrThrow({ where: { id: missed } });
  expect(state).toBe("cancelled");
  const filter = await bench.shop.read.part.findUniqueOrThrow({ where: { code: "BF-20" } });
  const [orderId = 0] = await addToDrafts(bench.shop, [{ partId: filter.id, quantityMilli: 7_000 }]);
  const { version } = await bench.shop.read.purchaseOrder.findUniqueOrThrow({ where: { id: orderId } });
  await placeOrder(bench.shop, { orderId, version });
  await orderRead(week, orderId);
  await evening(week);

  // Tuesday: the first job, from arrival over a bad ride and its correction to a good one.
  bench.morning(1);
  const came = await odometer(one);
  await acts.arrive(bench, first, came);
  await cardRead(week, first);
  await acts.work(bench, first);
  await acts.ride(bench, first, came + 9, felt(bench.chance.pick(["rich", "lean"] as const)));
  await cardRead(week, first);
  await acts.ride(bench, first, came + 15);
  await acts.finish(bench, first, came + 15);
  await cardRead(week, first);
  await asLeftRead(week, first, came + 15);
  // A walk-in says yes to an hour's look, and pays for the time it took.
  const stranger = await ordinary.walkIn(bench, "Cosima Rook", "SP LOOK");
  const look = await ordinary.hourly(bench, stranger, "Cosima Rook", "400");
  await acts.arrive(bench, look, null);
  await cardRead(week, look);
  await ordinary.workPlain(bench, look);
  const looked = await acts.invoice(bench, look, "asWorked");
  const { dueMinor } = await issuedAndRead(week, looked);
  expect(dueMinor).toBeLessThanOrEqual(40_000);
  await acts.payByCard(bench, looked, dueMinor);
  const [line] = await bench.shop.read.orderLine.findMany({ where: { orderId } });
  const lineId = line?.id ?? 0;
  await receiveOrder(bench.shop, {
    orderId,
    lines: [{ lineId, quantityMilli: 3_000, unitCostE4: bench.chance.between(70_000, 110_000) }],
  });
  await orderRead(week, orderId);
  await evening(week);

  // Wednesday: the first job is invoiced as quoted and part paid; the second is worked, something is found and agreed.
  bench.morning(2);
  const invoiced = await acts.invoice(bench, first, "fixed");
  const quoted = await issuedAndRead(week, invoiced);
  await acts.payByCard(bench, invoiced, Math.round(quoted.dueMinor / 3));
  await acts.arrive(bench, second, await odometer(two));
  await acts.work(bench, second, { most: 4 });
  // What the customer says no to is neither worked nor charged.
  const dear = await addFinding(bench.shop, { jobId: second, text: "The needle has a step in it." });
  const declined = await sentAndRead(week, {
    bikeId: two,
    packageId,
    take: ["needle"],
    leave: ["opening", "main", "breather"],
    variationOfId: second,
    findingId: dear.findingId,
  });
  await ordinary.no(bench, declined, "Not this year");
  const { findingId } = await addFinding(bench.shop, { jobId: second, text: "The snorkel is loose." });
  const variation = await sentAndRead(week, {
    bikeId: two,
    packageId,
    take: ["snorkel"],
    leave: ["opening", "main", "breather"],
    variationOfId: second,
    findingId,
  });
  await acts.yes(bench, variation);
  await cardRead(week, second);
  await acts.work(bench, second, { not: "BF-20" });
  await cardRead(week, second);
  await acts.ride(bench, second, null);
  await acts.finish(bench, second, null);
  await asLeftRead(week, second, null);
  await evening(week);

  // Two jets and a filter over the counter, and one of the sales brought back.
  const [jet] = await bench.shop.read.part.findMany({
    where: { kind: "jet" },
    orderBy: { onHandMilli: "desc" },
    take: 1,
  });
  const code = jet?.code ?? "";
  const sale = await ordinary.counter(bench, [{ code, pieces: 1, price: "8.45" }]);
  expect(await readSale(bench.shop, sale, { [code]: 84_500n })).toEqual([]);
  const filters = await ordinary.counter(bench, [{ code: "BF-20", pieces: 1, price: "23.99" }]);
  await ordinary.broughtBack(bench, filters);
  expect(await readSale(bench.shop, filters, { "BF-20": 239_900n })).toEqual([]);

  // Thursday: the second job is invoiced as worked and paid in cash; the first is credited, a jet comes back, invoiced anew.
  bench.morning(3);
  const worked = await acts.invoice(bench, second, "asWorked");
  await issuedAndRead(week, worked);
  await acts.payInCash(bench, worked, coin);
  bench.pass(20);
  const credit = await creditInvoice(bench.shop, { id: invoiced, reason: "To be billed by the hour" });
  await issuedAndRead(week, credit);
  const [used] = await bench.shop.read.move.findMany({
    where: { jobId: first, kind: "use", part: { kind: "jet" } },
  });
  if (!used) throw new Error("The first job fitted no jet.");
  await recordMove(bench.shop, {
    partId: used.partId,
    kind: "returnToStock",
    quantityMilli: 1_000,
    jobId: first,
  });
  const anew = await acts.invoice(bench, first, "asWorked");
  await issuedAndRead(week, anew);
  await acts.payInCash(bench, anew, coin);
  await receiveOrder(bench.shop, {
    orderId,
    lines: [{ lineId, quantityMilli: 4_000, unitCostE4: bench.chance.between(70_000, 110_000) }],
  });
  await orderRead(week, orderId);
  await evening(week);

  // The bike of Tuesday's look stalls again: nothing is charged, and what it took stands with the shop.
  const back1 = await ordinary.comeback(bench, stranger, look, 0);
  await acts.arrive(bench, back1, null);
  await ordinary.workPlain(bench, back1);
  await ordinary.closedFree(bench, back1);
  expect(await bench.shop.read.invoice.count({ where: { jobId: back1 } })).toBe(0);

  // Friday: the third job is called off and its deposit given back; the first bike comes again.
  bench.morning(4);
  const again = await acts.yes(
    bench,
    await sentAndRead(week, {
      bikeId: one,
      packageId,
      take: ["needle"],
      leave: ["opening", "main"],
    }),
  );
  const left = await bench.shop.read.settingSheet.findFirstOrThrow({
    where: { jobId: first, kind: "asLeft" },
    include: { values: { orderBy: { id: "asc" } } },
  });
  const plain = (values: readonly { carburettor: number; setting: string; value: number }[]) =>
    values.map(({ carburettor, setting, value }) => `${carburettor} ${setting} ${value}`).toSorted();
  expect(plain(await draftOf(bench.shop, one, again, "asFound"))).toEqual(plain(left.values));
  const off = await jobOf(third);
  await cancelJob(bench.shop, { jobId: third, version: off.version, reason: "The bike was sold" });
  const given = (await getToday(bench.shop, EVERYTHING)).toGiveBack;
  expect(given.map((job) => [job.id, job.depositLeftMinor])).toEqual([[third, off.revision.depositMinor]]);
  await recordRefund(bench.shop, {
    jobId: third,
    amountMinor: off.revision.depositMinor,
    method: "transfer",
    paidOn: bench.today,
    reference: "",
  });
  expect((await getToday(bench.shop, EVERYTHING)).toGiveBack).toEqual([]);
  const back = await odometer(one);
  await acts.arrive(bench, again, back);
  await acts.work(bench, again);
  await acts.finish(bench, again, back + 12);
  // It changed no setting: the bike stays as the first job left it, and only its odometer is told.
  const sheet = { where: { jobId: again, kind: "asLeft" as const }, orderBy: { id: "asc" as const } };
  expect(await bench.shop.read.settingSheet.findFirst(sheet)).toBeNull();
  const { odometerKm } = await bench.shop.read.bike.findUniqueOrThrow({ where: { id: one } });
  expect(odometerKm).toBe(back + 12);
  await handoverRead(bench.shop, again, back + 12);
  // And once more, of which 40 % is charged, with the reason on the invoice.
  const back2 = await ordinary.comeback(bench, stranger, look, 40);
  await acts.arrive(bench, back2, null);
  await ordinary.workPlain(bench, back2);
  const part = await issuedAndRead(week, await acts.invoice(bench, back2, "asWorked"));
  expect(part.lines.at(-1)?.key).toMatch(/^discount-/);
  const last = await acts.invoice(bench, again, "fixed");
  const text = await issuedAndRead(week, last);
  await acts.payByCard(bench, last, text.dueMinor);
  await evening(week);
}

let a: WeekShop;
let b: WeekShop;
let played: Promise<void> | undefined;
const playB = () => {
  played ??= playWeek(b);
  return played;
};
beforeAll(async () => {
  const shops = await twoShops(new Date("2026-11-29T20:00:00Z"));
  a = await weekShop(shops.a, "Australia/Sydney", true, SEED);
  b = await weekShop(shops.b, "Europe/Oslo", false, SEED + 1);
});

describe("a week in which each paper is read against the ledgers", () => {
  it("holds where prices are with tax and time is billed in tenths of an hour", () => playWeek(a), 240_000);

  it("holds where tax comes on top and time is billed by the minute", () => playB(), 240_000);

  it("would not hold with a minute, a rate or a cent that differs", async () => {
    await playB();
    const { shop } = b.bench;
    const invoice = await shop.read.invoice.findFirstOrThrow({
      where: { basis: "asWorked", kind: "invoice" },
    });
    const payments = await shop.read.payment.count({
      where: { jobId: invoice.jobId, at: { lte: invoice.createdAt } },
    });
    expect(await readInvoice(shop, invoice.id, payments)).toEqual([]);
    const sure = async (
      change: () => Promise<unknown>,
      undo: () => Promise<unknown>,
      read: () => Promise<string[]>,
    ) => {
      await change();
      expect(await read()).not.toEqual([]);
      await undo();
      expect(await read()).toEqual([]);
    };
    const sale = await shop.read.sale.findFirstOrThrow({ orderBy: { id: "asc" } });
    expect(await readSale(shop, sale.id, {})).not.toEqual([]);
    const entry = await shop.read.timeEntry.findFirstOrThrow({
      where: { jobId: invoice.jobId ?? 0, stepId: { not: null } },
    });
    const ends = (endedAt: Date | null) =>
      shop.write((tx) => tx.timeEntry.update({ where: { id: entry.id }, data: { endedAt } }));
    await sure(
      () => ends(new Date((entry.endedAt?.getTime() ?? 0) + 60_000)),
      () => ends(entry.endedAt),
      () => readInvoice(shop, invoice.id, payments),
    );
    const rate = (by: number) =>
      shop.write((tx) => tx.labourGrade.updateMany({ data: { ratePerHourMinor: { increment: by } } }));
    await sure(
      () => rate(60),
      () => rate(-60),
      () => readInvoice(shop, invoice.id, payments),
    );
    const paid = (by: number) =>
      shop.write((tx) =>
        tx.invoice.update({ where: { id: invoice.id }, data: { paidMinor: { increment: by } } }),
      );
    await sure(
      () => paid(1),
      () => paid(-1),
      () => readLedgers(shop),
    );
  });
});
