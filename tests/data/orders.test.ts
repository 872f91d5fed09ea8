import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { firstTimes } from "@/lib/data/bookings/times";
import { problemsOf } from "@/lib/data/books/invariants";
import { cancelOrder, cancelRest, postponeLine } from "@/lib/data/orders/cancel";
import { addToDrafts, changeLine } from "@/lib/data/orders/draft";
import { orderProblems } from "@/lib/data/orders/invariants";
import { getOrder, listOrders } from "@/lib/data/orders/list";
import { offerPart } from "@/lib/data/orders/offers";
import { placeOrder } from "@/lib/data/orders/place";
import { receiveOrder } from "@/lib/data/orders/receive";
import { orderSuggestions } from "@/lib/data/orders/suggest";
import { getSupplier, listSuppliers, saveSupplier } from "@/lib/data/orders/suppliers";
import { previewPriceList, takePriceList } from "@/lib/data/parts/priceList";
import { createPart, putOnOrder } from "@/lib/data/parts/save";
import { recordMove } from "@/lib/data/stock/moves";
import { getPart } from "@/lib/data/stock/parts";
import { reserveIn } from "@/lib/data/stock/reservations";
import type { ShopHandle } from "@/lib/db/shop";
import { orderCsv } from "@/lib/documents/order";
import { Refusal } from "@/lib/domain/refusal";
import { PartSupplierSchema, SupplierSchema } from "@/lib/schemas/orders";
import { NewPartSchema } from "@/lib/schemas/parts";
import { oneJob } from "../support/oneJob";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let made = 0;

const part = (shop: ShopHandle, more: Record<string, string> = {}) =>
  createPart(
    shop,
    NewPartSchema.parse({
      code: `OR-${++made}`,
      name: "Pilot jet",
      kind: "other",
      unit: "each",
      supplier: "Marl Supplies",
      leadDays: "5",
      ...more,
    }),
  );
const onOrder = async (shop: ShopHandle, id: number) => (await getPart(shop, id, true))?.onOrderMilli;
const order = async (shop: ShopHandle, id: number) => {
  const view = await getOrder(shop, id, true);
  if (!view) throw new Error("no such order");
  return view;
};
const drafted = async (shop: ShopHandle, ...lines: [partId: number, pieces: number][]) =>
  (
    await addToDrafts(
      shop,
      lines.map(([partId, pieces]) => ({ partId, quantityMilli: pieces * 1000 })),
    )
  )[0] as number;
const placed = async (shop: ShopHandle, ...lines: [partId: number, pieces: number][]) => {
  const id = await drafted(shop, ...lines);
  await placeOrder(shop, { orderId: id, version: (await order(shop, id)).version });
  return order(shop, id);
};

beforeAll(async () => {
  ({ a, b } = await twoShops());
});

describe("a purchase order", () => {
  it("is a draft for each supplier, numbered from 81, and orders nothing until it is placed", async () => {
    const { a: fresh, b: other } = await twoShops();
    const one = await part(fresh);
    const two = await part(fresh, { supplier: "Ridge Brass" });
    const ids = await addToDrafts(fresh, [
      { partId: one, quantityMilli: 3_000 },
      { partId: two, quantityMilli: 2_000 },
      { partId: one, quantityMilli: 1_000 },
    ]);
    expect(ids).toHaveLength(2);
    const first = await order(fresh, ids[0] as number);
    expect(first).toMatchObject({ number: "81", state: "draft", supplier: { name: "Marl Supplies" } });
    expect(first.lines.map((line) => line.quantityMilli)).toEqual([4_000]);
    expect(await onOrder(fresh, one)).toBe(0);
    expect((await listOrders(other, {})).rows).toEqual([]);
  });

  it("is on order once placed, due by the supplier's days, and writes the mail that was asked for", async () => {
    const id = await part(a);
    const supplier = (await listSuppliers(a)).find((row) => row.name === "Marl Supplies");
    const known = await getSupplier(a, supplier?.id ?? 0);
    await saveSupplier(
      a,
      SupplierSchema.parse({
        ...known,
        id: String(known?.id),
        version: String(known?.version),
        leadDays: "5",
        active: "true",
        email: "desk@marl.example",
        name: "Marl Supplies",
      }),
    );
    const draft = await drafted(a, [id, 4]);
    const { version, number } = await order(a, draft);
    await placeOrder(a, { orderId: draft, version, mail: true, key: "place-once-1" });
    await placeOrder(a, { orderId: draft, version, mail: true, key: "place-once-1" });
    expect(await onOrder(a, id)).toBe(4_000);
    // The shop's day is 25 November in Adelaide; five days to arrive.
    expect(await order(a, draft)).toMatchObject({
      state: "ordered",
      orderedOn: "2026-11-25",
      lines: [{ dueOn: "2026-11-30" }],
    });
    const mails = await a.read.mail.findMany({
      where: { to: "desk@marl.example" },
      select: { subject: true, text: true },
      orderBy: { id: "asc" },
      take: 9,
    });
    expect(mails).toHaveLength(1);
    expect(mails[0]?.subject).toContain(`order ${number}`);
    expect(mails[0]?.text).toContain("4 x ");
  });

  it("refuses to be placed twice, or as it was before somebody changed it", async () => {
    const id = await part(a);
    const draft = await drafted(a, [id, 1]);
    const seen = await order(a, draft);
    await changeLine(a, { lineId: seen.lines[0]?.id ?? 0, quantityMilli: 6_000 });
    await expect(placeOrder(a, { orderId: draft, version: seen.version })).rejects.toMatchObject({
      kind: "conflict",
    });
    await placeOrder(a, { orderId: draft, version: seen.version + 1 });
    await expect(placeOrder(a, { orderId: draft, version: seen.version + 2 })).rejects.toThrow(
      /placed already/,
    );
    expect(await onOrder(a, id)).toBe(6_000);
  });

  it("is received in parts, tells a price that differs, and gives the job that waits what came", async () => {
    const id = await part(a, { opening: "10", cost: "4.00" });
    const job = await oneJob(a);
    await a.write((tx) => reserveIn(tx, a, { jobId: job.jobId, partId: id, wantedMilli: 12_000 }));
    const placedOrder = await placed(a, [id, 10]);
    const lineId = placedOrder.lines[0]?.id ?? 0;
    const first = await receiveOrder(a, {
      orderId: placedOrder.id,
      lines: [{ lineId, quantityMilli: 4_000, unitCostE4: 54_000 }],
      key: "delivery-1",
    });
    // (10 at 4.00 + 4 at 5.40) / 14 = 4.40; IAS 2.27.
    expect(first).toEqual({
      differences: [
        { code: `OR-${made}`, orderedE4: 40_000, cameE4: 54_000, averageBeforeE4: 40_000, averageE4: 44_000 },
      ],
      jobs: [job.number],
      whole: false,
    });
    const again = (quantityMilli: number) =>
      receiveOrder(a, {
        orderId: placedOrder.id,
        lines: [{ lineId, quantityMilli, unitCostE4: 54_000 }],
        key: "delivery-1",
      });
    expect(await again(4_000)).toEqual(first);
    // The answer was lost, the number was changed and sent again: the first stands, and nobody is told otherwise.
    await expect(again(5_000)).rejects.toMatchObject({
      kind: "repeated",
      message: expect.stringMatching(/came through before.*received a delivery/),
    });
    expect(await order(a, placedOrder.id)).toMatchObject({
      state: "partReceived",
      lines: [{ receivedMilli: 4_000, openMilli: 6_000 }],
    });
    expect(await onOrder(a, id)).toBe(6_000);
    await expect(
      receiveOrder(a, { orderId: placedOrder.id, lines: [{ lineId, quantityMilli: 7_000 }] }),
    ).rejects.toThrow(/Only 6 of/);
    await expect(
      receiveOrder(a, { orderId: placedOrder.id, lines: [{ lineId, quantityMilli: -1_000 }] }),
    ).rejects.toMatchObject({ remedy: expect.stringMatching(/Enter/) });
    await expect(
      receiveOrder(a, { orderId: placedOrder.id, lines: [{ lineId, quantityMilli: 500 }] }),
    ).rejects.toThrow(/pieces/);
    expect(
      (await receiveOrder(a, { orderId: placedOrder.id, lines: [{ lineId, quantityMilli: 6_000 }] })).whole,
    ).toBe(true);
    expect(await onOrder(a, id)).toBe(0);
    await expect(
      receiveOrder(a, { orderId: placedOrder.id, lines: [{ lineId, quantityMilli: 1_000 }] }),
    ).rejects.toThrow(/closed/);
  });

  it("takes in all of a delivery or nothing of it", async () => {
    const [one, two] = [await part(a), await part(a)];
    const { id, lines } = await placed(a, [one, 2], [two, 2]);
    await expect(
      receiveOrder(a, {
        orderId: id,
        lines: [
          { lineId: lines[0]?.id ?? 0, quantityMilli: 2_000 },
          { lineId: lines[1]?.id ?? 0, quantityMilli: 3_000 },
        ],
      }),
    ).rejects.toThrow(Refusal);
    expect(await getPart(a, one, true)).toMatchObject({ onHandMilli: 0, onOrderMilli: 2_000 });
  });

  it("keeps a back order open for another day, and takes what will not come off what is on order", async () => {
    const id = await part(a);
    const { id: orderId, lines } = await placed(a, [id, 5]);
    const lineId = lines[0]?.id ?? 0;
    await receiveOrder(a, { orderId, lines: [{ lineId, quantityMilli: 2_000 }] });
    await postponeLine(a, { lineId, dueOn: "2026-12-20" });
    expect(await onOrder(a, id)).toBe(3_000);
    await cancelRest(a, { lineId, why: "no longer made" });
    expect(await order(a, orderId)).toMatchObject({
      state: "received",
      lines: [{ receivedMilli: 2_000, cancelledMilli: 3_000 }],
    });
    expect(await onOrder(a, id)).toBe(0);
    await expect(cancelRest(a, { lineId, why: "again" })).rejects.toThrow(Refusal);
  });

  it("is cancelled as a whole, and as a draft is gone", async () => {
    const id = await part(a);
    const whole = await placed(a, [id, 5]);
    expect(await cancelOrder(a, { orderId: whole.id, version: whole.version, why: "too dear" })).toBe(
      "cancelled",
    );
    expect((await order(a, whole.id)).state).toBe("cancelled");
    expect(await onOrder(a, id)).toBe(0);
    const draft = await order(a, await drafted(a, [id, 1]));
    expect(await cancelOrder(a, { orderId: draft.id, version: draft.version, why: "mistake" })).toBe("gone");
    expect(await getOrder(a, draft.id, true)).toBeNull();
  });

  it("shows no costs to those who may not see margins", async () => {
    const id = await part(a, { cost: "7.77" });
    const { id: orderId } = await placed(a, [id, 5]);
    expect(JSON.stringify(await getOrder(a, orderId, false))).not.toContain("77700");
  });

  it("is answered by a receipt without an order too, the line due first", async () => {
    const id = await part(a);
    const late = await placed(a, [id, 3]);
    await postponeLine(a, { lineId: late.lines[0]?.id ?? 0, dueOn: "2027-01-10" });
    const soon = await placed(a, [id, 2]);
    await recordMove(a, { partId: id, kind: "receipt", quantityMilli: 6_000 });
    expect((await order(a, soon.id)).state).toBe("received");
    expect((await order(a, late.id)).state).toBe("received");
    const view = await getPart(a, id, true);
    expect(view?.moves.map((move) => move.quantityMilli)).toEqual([1_000, 3_000, 2_000]);
    expect(await orderProblems(a)).toEqual([]);
  });

  it("says as CSV what it orders, with nothing a spreadsheet would run", async () => {
    const id = await part(a, { name: "=cmd|'/c calc'!A1", cost: "1.25" });
    const view = await placed(a, [id, 5]);
    const shop = {
      name: "Saltpan",
      address: "",
      phone: "",
      email: "",
      taxNumber: "",
      locale: "en-AU",
      country: "AU",
      currency: "AUD",
    };
    const rows: string[][] = parse(orderCsv({ ...view, day: view.today, shop }), { bom: true });
    expect(rows).toHaveLength(2);
    expect(rows[1]?.[4]).toBe("'=cmd|'/c calc'!A1");
    expect(rows[1]?.slice(5, 8)).toEqual(["5", "each", "1.25"]);
  });
});

describe("what to order", () => {
  it("puts jobs that wait first with the day they need it, then what is under its point, in whole packs", async () => {
    const { a: fresh, b: other } = await twoShops();
    const low = await part(fresh, { code: "A-LOW", point: "4", opening: "1", top: "9" });
    const short = await part(fresh, { code: "Z-SHORT" });
    await offerPart(
      fresh,
      PartSupplierSchema.parse({
        partId: String(short),
        supplier: "Marl Supplies",
        code: "m-1",
        pack: "5",
        least: "",
        leadDays: "",
        usual: "true",
      }),
    );
    const job = await oneJob(fresh);
    await fresh.write((tx) => reserveIn(tx, fresh, { jobId: job.jobId, partId: short, wantedMilli: 2_000 }));
    const [marl] = await orderSuggestions(fresh, true);
    expect(marl?.lines.map((line) => [line.code, line.jobNumber, line.quantityMilli, line.rule])).toEqual([
      ["Z-SHORT", job.number, 5_000, "short for a job"],
      ["A-LOW", null, 8_000, "fill up"],
    ]);
    expect(marl?.lines.every((line) => line.because.length > 0)).toBe(true);
    await addToDrafts(
      fresh,
      marl?.lines.map((line) => ({
        partId: line.partId,
        quantityMilli: line.quantityMilli,
        jobId: line.jobId ?? undefined,
      })) ?? [],
    );
    expect(await orderSuggestions(fresh, true)).toEqual([]);
    expect(await orderSuggestions(other, true)).toEqual([]);
    expect(low).toBeGreaterThan(0);
  });
});

it("what to order is found among thousands of parts, each with a supplier and a point", async () => {
  const { a: fresh } = await twoShops();
  const usual = await part(fresh, { code: "B-0", point: "2", opening: "1", cost: "1.50" });
  const supplierId = (await listSuppliers(fresh))[0]?.id ?? 0;
  await fresh.write(async (tx) => {
    const many = Array.from({ length: 2_500 }, (_, n) => ({
      code: `B-${n + 1}`,
      name: "Jet",
      kind: "other" as const,
      pointMilli: 2_000,
      onHandMilli: n < 1_200 ? 0 : 9_000,
      searchKey: "b",
      createdAt: fresh.now,
    }));
    for (let at = 0; at < many.length; at += 50) await tx.part.createMany({ data: many.slice(at, at + 50) });
    const rows = await tx.part.findMany({
      where: { id: { not: usual } },
      select: { id: true },
      orderBy: { id: "asc" },
      take: 3_000,
    });
    for (let at = 0; at < rows.length; at += 50)
      await tx.partSupplier.createMany({
        data: rows.slice(at, at + 50).map((row) => ({ partId: row.id, supplierId, usual: true })),
      });
  });
  const [marl, ...others] = await orderSuggestions(fresh, true);
  expect(others).toEqual([]);
  expect(marl).toMatchObject({ supplierId, supplier: "Marl Supplies" });
  expect(marl?.lines).toHaveLength(1_201);
}, 60_000);

describe("expected days", () => {
  it("let a booking wait for the order's day instead of the usual lead time", async () => {
    const id = await part(a, { leadDays: "3" });
    const job = await oneJob(a);
    await a.write((tx) => reserveIn(tx, a, { jobId: job.jobId, partId: id, wantedMilli: 1_000 }));
    const before = await firstTimes(a, job.jobId, 1);
    const { lines } = await placed(a, [id, 1]);
    await postponeLine(a, { lineId: lines[0]?.id ?? 0, dueOn: "2026-12-14" });
    const after = await firstTimes(a, job.jobId, 1);
    const adelaideMidnight = Date.parse("2026-12-13T13:30:00Z");
    expect(before.times[0]?.startsAt).toBeLessThan(adelaideMidnight);
    expect(after.times[0]?.startsAt).toBeGreaterThanOrEqual(adelaideMidnight);
  });

  it("promise nothing of an order that is behind its day", async () => {
    const id = await part(a);
    const job = await oneJob(a);
    await a.write((tx) => reserveIn(tx, a, { jobId: job.jobId, partId: id, wantedMilli: 1_000 }));
    await placed(a, [id, 1]);
    const later = as(a, { now: new Date("2027-02-01T00:30:00Z") });
    expect((await firstTimes(later, job.jobId, 1)).unknown).toEqual([expect.stringContaining("on order")]);
  });
});

describe("a supplier's price list", () => {
  const list = (supplierId: number, text: string) => ({
    supplierId,
    fileName: "list.csv",
    text,
    map: { code: 0, costE4: 1 },
    mark: "." as const,
  });

  it("shows what changes, changes nothing before it is taken, and takes it once", async () => {
    const { a: fresh } = await twoShops();
    const id = await part(fresh, { supplierCode: "pj45", cost: "4.00" });
    const same = await part(fresh, { supplierCode: "pj48", cost: "4.00" });
    const supplierId = (await listSuppliers(fresh))[0]?.id ?? 0;
    const input = list(supplierId, "ref,net\npj45,4.60\npj48,4.00\nzz9,1.00\n");
    const view = await previewPriceList(fresh, input);
    expect(view).toMatchObject({
      unchanged: 1,
      notOurs: 1,
      problems: [],
      changes: [{ partId: id, fromE4: 40_000, toE4: 46_000 }],
    });
    expect((await getPart(fresh, id, true))?.cost?.costE4).toBe(40_000);
    await takePriceList(fresh, input, "price-list-1");
    expect((await getPart(fresh, id, true))?.cost?.costE4).toBe(46_000);
    expect((await getPart(fresh, same, true))?.cost?.costE4).toBe(40_000);
    expect((await previewPriceList(fresh, input)).changes).toEqual([]);
  });

  it("of 5 000 rows names all seven that are bad, by line, and takes none", async () => {
    const supplierId = (await listSuppliers(a))[0]?.id ?? 0;
    const bad = new Map([
      [17, "x17,four dollars"],
      [400, "x400,-3.00"],
      [1_234, ",5.00"],
      [2_500, "x2500,"],
      [3_999, "x3999,1.2.3"],
      [4_200, "x4200,1e3"],
      [5_000, "x5000,NaN"],
    ]);
    const rows = Array.from(
      { length: 5_000 },
      (_, at) => bad.get(at + 1) ?? `x${at + 1},${(at % 90) + 1}.50`,
    );
    const input = list(supplierId, `ref,net\n${rows.join("\n")}\n`);
    const view = await previewPriceList(a, input);
    // The heading is line 1, so row n stands on line n + 1.
    expect([...new Set(view.problems.map((problem) => problem.line))]).toEqual(
      [...bad.keys()].map((row) => row + 1),
    );
    expect(view.problems.every((problem) => problem.remedy !== "")).toBe(true);
    await expect(takePriceList(a, input)).rejects.toThrow(/7 of 5000 rows/);
  });
});

/** The rules of ordering told a second time, without a database. */
interface Told {
  onHand: number;
  orders: { placed: boolean; gone: boolean; quantity: number; received: number; cancelled: number }[];
}
const act = fc.oneof(
  fc.record({ act: fc.constant("order" as const), pieces: fc.integer({ min: 1, max: 9 }) }),
  fc.record({
    act: fc.constant("receive" as const),
    which: fc.nat(5),
    pieces: fc.integer({ min: 1, max: 9 }),
  }),
  fc.record({ act: fc.constant("cancel" as const), which: fc.nat(5) }),
  fc.record({ act: fc.constant("loose" as const), pieces: fc.integer({ min: 1, max: 9 }) }),
  fc.record({ act: fc.constant("back" as const), pieces: fc.integer({ min: 1, max: 9 }) }),
);

it("on order, received and on hand are what a replay by hand says, after any run of orders and deliveries", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(act, { minLength: 1, maxLength: 20 }), async (acts) => {
      const partId = await part(b);
      const told: Told = { onHand: 0, orders: [] };
      const lines: { orderId: number; lineId: number }[] = [];
      for (const step of acts) {
        const open = (at: number) => {
          const one = told.orders[at];
          return one ? one.quantity - one.received - one.cancelled : 0;
        };
        const refused = await (async () => {
          switch (step.act) {
            case "order": {
              const view = await placed(b, [partId, step.pieces]);
              lines.push({ orderId: view.id, lineId: view.lines[0]?.id ?? 0 });
              told.orders.push({
                placed: true,
                gone: false,
                quantity: step.pieces,
                received: 0,
                cancelled: 0,
              });
              return null;
            }
            case "receive": {
              const line = lines[step.which];
              const fits = line !== undefined && step.pieces <= open(step.which);
              const failed = await receiveOrder(b, {
                orderId: line?.orderId ?? 0,
                lines: [{ lineId: line?.lineId ?? 0, quantityMilli: step.pieces * 1000 }],
              }).then(() => false, refusal);
              if (fits) {
                (told.orders[step.which] as { received: number }).received += step.pieces;
                told.onHand += step.pieces;
              }
              return failed === fits;
            }
            case "cancel": {
              const line = lines[step.which];
              const fits = open(step.which) > 0;
              const failed = await cancelRest(b, { lineId: line?.lineId ?? 0, why: "test" }).then(
                () => false,
                refusal,
              );
              if (fits) (told.orders[step.which] as { cancelled: number }).cancelled += open(step.which);
              return failed === fits;
            }
            case "loose": {
              await recordMove(b, { partId, kind: "receipt", quantityMilli: step.pieces * 1000 });
              told.onHand += step.pieces;
              let left = step.pieces;
              // All lines are due the same day, so the oldest is answered first.
              for (const [at, one] of told.orders.entries()) {
                const taken = Math.min(left, open(at));
                one.received += taken;
                left -= taken;
              }
              return null;
            }
            case "back": {
              const fits = told.onHand >= step.pieces;
              const failed = await recordMove(b, {
                partId,
                kind: "returnToSupplier",
                quantityMilli: step.pieces * 1000,
                why: "wrong",
              }).then(() => false, refusal);
              if (fits) told.onHand -= step.pieces;
              return failed === fits;
            }
          }
        })();
        expect(refused, JSON.stringify(step)).not.toBe(true);
      }
      const view = await getPart(b, partId, true);
      expect(view?.onHandMilli).toBe(told.onHand * 1000);
      expect(view?.onOrderMilli).toBe(
        told.orders.reduce((sum, one) => sum + one.quantity - one.received - one.cancelled, 0) * 1000,
      );
      for (const [at, one] of told.orders.entries())
        expect((await order(b, lines[at]?.orderId ?? 0)).lines[0]).toMatchObject({
          receivedMilli: one.received * 1000,
          cancelledMilli: one.cancelled * 1000,
        });
    }),
    { numRuns: 20 },
  );
  expect(await problemsOf(b)).toEqual([]);
}, 120_000);

function refusal(cause: unknown): true {
  if (cause instanceof Refusal) return true;
  throw cause;
}

it("putting a part on order by telephone is a placed order too", async () => {
  const id = await part(a, { supplier: "" });
  await putOnOrder(a, { partId: id, quantityMilli: 2_000, key: "telephone-1" });
  await putOnOrder(a, { partId: id, quantityMilli: 2_000, key: "telephone-1" });
  expect(await onOrder(a, id)).toBe(2_000);
  expect((await listOrders(a, { state: "ordered" })).rows[0]).toMatchObject({
    supplier: "No supplier named",
  });
  expect(await orderProblems(a)).toEqual([]);
});
