import fc from "fast-check";
import { beforeAll, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { cancelRest } from "@/lib/data/orders/cancel";
import { receiveOrder } from "@/lib/data/orders/receive";
import { createPart, putOnOrder } from "@/lib/data/parts/save";
import { correctMove } from "@/lib/data/stock/correct";
import { countPart, splitPart } from "@/lib/data/stock/counts";
import { recordMove } from "@/lib/data/stock/moves";
import { releaseIn, releaseReservation, reserveIn, useReserved } from "@/lib/data/stock/reservations";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { NewPartSchema } from "@/lib/schemas/parts";
import { MOVE_WORDS } from "@/lib/schemas/quantity";
import { oneJob } from "../support/oneJob";
import { twoShops } from "../support/shops";
import { FULL } from "../support/size";
import { type Costing, type ToldPart, ToldStock } from "../support/toldStock";

/** At full size ten thousand acts are carried out though a fifth is refused; fewer where each is many round trips. */
const RUNS = FULL && !process.env.DATABASE_URL ? 145 : process.env.DATABASE_URL ? 20 : 15;
const AT_LEAST = RUNS === 145 ? 10_000 : RUNS * 50;
const ACTS = 100;

interface Costed {
  shop: ShopHandle;
  costing: Costing;
  jobs: number[];
}
let shops: [Costed, Costed];
let made = 0;
const carriedOut = { acts: 0, refused: 0, kinds: new Set<string>() };

beforeAll(async () => {
  const { a, b } = await twoShops();
  await b.write((tx) => tx.settings.update({ where: { id: 1 }, data: { stockCosting: "fifo" } }));
  shops = [
    { shop: a, costing: "average", jobs: [] },
    { shop: b, costing: "fifo", jobs: [] },
  ];
  for (const { shop, jobs } of shops) for (let i = 0; i < 3; i++) jobs.push((await oneJob(shop)).jobId);
});

/** What is named more than once comes more often. */
const WHAT = [
  ...["receipt", "receipt", "receipt", "receiveOn", "receiveOn", "opening", "returnToStock"],
  ...["reserve", "reserve", "takeReserved", "takeReserved", "use", "scrap", "returnToSupplier"],
  ...["order", "order", "cancelRest", "count", "split", "correct", "release", "releaseJob"],
] as const;

const act = fc.record({
  what: fc.constantFrom(...WHAT),
  part: fc.nat(2),
  pieces: fc.integer({ min: 1, max: 6 }),
  costE4: fc.option(fc.integer({ min: 1, max: 90_000 }), { freq: 4 }),
  job: fc.nat(2),
  which: fc.nat(200),
});
type Act = typeof act extends fc.Arbitrary<infer T> ? T : never;

it(`every projection is what a replay on paper says, after each of ${RUNS * ACTS} acts on the ledger`, async () => {
  await fc.assert(
    fc.asyncProperty(fc.nat(1), fc.array(act, { minLength: ACTS, maxLength: ACTS }), async (which, acts) => {
      const shelf = await emptyShelf(shops[which] as Costed);
      for (const step of acts) {
        const at = meant(shelf.told, step);
        const allowed = onPaper(shelf.told, step, at);
        const done = await carryOut(shelf, step, at).then(() => true, refusal);
        expect(done, JSON.stringify(step)).toBe(allowed);
        carriedOut[done ? "acts" : "refused"]++;
        await comparePartsWith(shelf);
      }
      await compareRowsWith(shelf);
      for (const jobId of shelf.jobs) await shelf.shop.write((tx) => releaseIn(tx, shelf.shop, jobId));
    }),
    { numRuns: RUNS, endOnFailure: true },
  );

  expect(carriedOut.acts).toBeGreaterThanOrEqual(AT_LEAST);
  // What goes from bin to bin is replayed in stockBinsLedger.test.ts.
  const kinds = Object.keys(MOVE_WORDS).filter((kind) => kind !== "betweenBins");
  expect([...carriedOut.kinds].sort()).toEqual(kinds.sort());
  for (const { shop } of shops) expect(await problemsOf(shop)).toEqual([]);
}, 900_000);

/** A box that is opened into the other two: one counted in pieces, one measured in millilitres. */
interface Shelf extends Costed {
  told: ToldStock;
  partIds: number[];
  reservationIds: number[];
  lines: { id: number; orderId: number }[];
}

async function emptyShelf(of: Costed): Promise<Shelf> {
  const partIds: number[] = [];
  for (const unit of ["each", "each", "ml"])
    partIds.push(
      await createPart(
        of.shop,
        NewPartSchema.parse({
          code: `P-${++made}`,
          name: "Spring",
          kind: "spring",
          unit,
          supplier: `Seller ${made}`,
        }),
      ),
    );
  return { ...of, told: new ToldStock(3, of.costing), partIds, reservationIds: [], lines: [] };
}

/** Whole pieces, or an amount of millilitres that does not come out even. */
const amount = (part: number, pieces: number) => (part === 2 ? pieces * 733 : pieces * 1000);
const SPLIT = [1, 2].map((part) => ({ part, quantityMilli: amount(part, part) }));
/** What came on an order was paid, one way or another. */
const paid = (step: Act) => step.costE4 ?? 1_234;

/** Which rows an act means, by their place among those that are there before it, and how much of one. */
function meant(told: ToldStock, { what, which, part, pieces }: Act) {
  const place = <T>(rows: readonly T[], open: (row: T) => boolean = () => true) => {
    // Three times of four one that is still open, if there is one: most are closed before long.
    const among = rows.filter((row) => which % 4 === 0 || open(row));
    return among.length === 0 ? 0 : rows.indexOf(among[which % among.length] as T);
  };
  const lineAt = place(told.lines, (row) => row.ordered > row.received + row.cancelled);
  const wishAt = place(told.wishes, (row) => (what === "takeReserved" ? row.held > 0 : row.state === "held"));
  const [line, wish] = [told.lines[lineAt], told.wishes[wishAt]];
  const of = what === "receiveOn" ? line?.part : what === "takeReserved" ? wish?.part : told.parts[part];
  // Now and then much comes at once, or most of what goes out would be refused; if it always did, nobody would run short.
  const much = (what === "receipt" || what === "opening") && which % 3 === 0;
  const count = what === "takeReserved" ? 1 : much ? 4 * pieces : pieces;
  const quantity = amount(of ? told.parts.indexOf(of) : part, count);
  const moves = told.parts[part]?.moves ?? [];
  return { line: lineAt, wish: wishAt, move: place(moves), quantity };
}
type Meant = ReturnType<typeof meant>;

function onPaper(told: ToldStock, step: Act, at: Meant): boolean {
  const part = told.parts[step.part] as ToldPart;
  const right = amount(step.part, step.pieces - 1);
  switch (step.what) {
    case "receipt":
      return told.receive(part, at.quantity, step.costE4);
    case "opening":
    case "returnToStock":
      return told.arrive(part, step.what, at.quantity, step.costE4);
    case "use":
    case "scrap":
    case "returnToSupplier":
      return told.leave(part, step.what, at.quantity);
    case "order":
      return told.order(part, at.quantity);
    case "receiveOn":
      return told.receiveOn(told.lines[at.line], at.quantity, paid(step));
    case "cancelRest":
      return told.cancel(told.lines[at.line]);
    case "count":
      return told.count(part, right);
    case "split": {
      const [box, ...rest] = told.parts as [ToldPart, ToldPart, ToldPart];
      const into = SPLIT.map(({ quantityMilli }, n) => ({
        part: rest[n] as ToldPart,
        quantity: quantityMilli,
      }));
      return told.split(box, 1000, into);
    }
    case "correct":
      return told.correct(part, part.moves[at.move], right);
    case "reserve":
      return told.reserve(part, step.job, at.quantity);
    case "takeReserved":
      return told.takeReserved(told.wishes[at.wish], at.quantity);
    case "release":
      return told.release(told.wishes[at.wish]);
    case "releaseJob":
      return told.releaseJob(step.job);
  }
}

async function carryOut(shelf: Shelf, step: Act, at: Meant): Promise<unknown> {
  const { shop, partIds } = shelf;
  const { quantity: quantityMilli } = at;
  const partId = partIds[step.part] as number;
  const jobId = shelf.jobs[step.job] as number;
  const reservationId = shelf.reservationIds[at.wish] ?? 0;
  const line = shelf.lines[at.line] ?? { id: 0, orderId: 0 };
  const rightMilli = amount(step.part, step.pieces - 1);
  switch (step.what) {
    case "receipt":
    case "opening":
    case "returnToStock":
      return recordMove(shop, { partId, kind: step.what, quantityMilli, unitCostE4: step.costE4 });
    case "use":
    case "scrap":
    case "returnToSupplier":
      return recordMove(shop, { partId, kind: step.what, quantityMilli, jobId, why: "replayed" });
    case "order": {
      await putOnOrder(shop, { partId, quantityMilli });
      const made = await shop.read.orderLine.findFirstOrThrow({
        where: { partId },
        select: { id: true, orderId: true },
        orderBy: { id: "desc" },
      });
      return shelf.lines.push(made);
    }
    case "receiveOn": {
      const came = { lineId: line.id, quantityMilli, unitCostE4: paid(step) };
      return receiveOrder(shop, { orderId: line.orderId, lines: [came] });
    }
    case "cancelRest":
      return cancelRest(shop, { lineId: line.id, why: "replayed" });
    case "count": {
      const part = await shop.read.part.findUniqueOrThrow({
        where: { id: partId },
        select: { onHandMilli: true },
      });
      return countPart(shop, { partId, countedMilli: rightMilli, seenMilli: part.onHandMilli });
    }
    case "split": {
      const into = SPLIT.map((piece) => ({ ...piece, partId: partIds[piece.part] as number }));
      return splitPart(shop, { partId: partIds[0] as number, quantityMilli: 1000, into });
    }
    case "correct": {
      const moves = await shop.read.move.findMany({
        where: { partId },
        select: { id: true },
        orderBy: { id: "asc" },
      });
      return correctMove(shop, { moveId: moves[at.move]?.id ?? 0, rightMilli, why: "replayed" });
    }
    case "reserve": {
      const wanted = { jobId, partId, wantedMilli: quantityMilli };
      const made = await shop.write((tx) => reserveIn(tx, shop, wanted));
      return shelf.reservationIds.push(made.reservationId);
    }
    case "takeReserved":
      // biome-ignore lint/correctness/useHookAtTopLevel: parts are used here, no React hook
      return useReserved(shop, { reservationId, quantityMilli });
    case "release":
      return releaseReservation(shop, reservationId);
    case "releaseJob":
      return shop.write((tx) => releaseIn(tx, shop, jobId));
  }
}

function refusal(cause: unknown): false {
  if (cause instanceof Refusal) return false;
  throw cause;
}

/** The parts' own rows: what the ledger, the reservations and the orders come to, and what it is worth; and who holds how much. */
async function comparePartsWith({ shop, told, partIds }: Shelf): Promise<void> {
  const rows = await shop.read.part.findMany({
    where: { id: { in: partIds } },
    select: {
      onHandMilli: true,
      reservedMilli: true,
      onOrderMilli: true,
      averageE4: true,
      costE4: true,
    },
    orderBy: { id: "asc" },
  });
  expect(rows).toEqual(
    told.parts.map((part) => ({
      onHandMilli: part.onHand,
      reservedMilli: told.reserved(part),
      onOrderMilli: told.onOrder(part),
      averageE4: part.averageE4,
      costE4: part.costE4,
    })),
  );
  const reservations = await shop.read.reservation.findMany({
    where: { partId: { in: partIds } },
    select: { reservedMilli: true },
    orderBy: { id: "asc" },
  });
  expect(reservations).toEqual(told.wishes.map((wish) => ({ reservedMilli: wish.held })));
}

/** Every row of the ledger, every reservation and every order line, one by one. */
async function compareRowsWith({ shop, told, partIds, reservationIds, lines, jobs }: Shelf): Promise<void> {
  for (const [at, part] of told.parts.entries()) {
    const moves = await shop.read.move.findMany({
      where: { partId: partIds[at] as number },
      select: { kind: true, quantityMilli: true, unitCostE4: true, orderLineId: true },
      orderBy: { id: "asc" },
    });
    const written = part.moves.map(({ line, ...move }) => ({
      ...move,
      orderLineId: line ? (lines[told.lines.indexOf(line)]?.id ?? 0) : null,
    }));
    expect(moves).toEqual(written);
    expect(moves.reduce((sum, move) => sum + move.quantityMilli, 0)).toBe(part.onHand);
    for (const { kind } of moves) carriedOut.kinds.add(kind);
  }
  const reservations = await shop.read.reservation.findMany({
    where: { partId: { in: partIds } },
    select: {
      id: true,
      jobId: true,
      partId: true,
      wantedMilli: true,
      reservedMilli: true,
      usedMilli: true,
      state: true,
    },
    orderBy: { id: "asc" },
  });
  expect(reservations).toEqual(
    told.wishes.map((wish, at) => ({
      id: reservationIds[at],
      jobId: jobs[wish.job],
      partId: partIds[told.parts.indexOf(wish.part)],
      wantedMilli: wish.wanted,
      reservedMilli: wish.held,
      usedMilli: wish.used,
      state: wish.state,
    })),
  );
  const ordered = await shop.read.orderLine.findMany({
    where: { partId: { in: partIds } },
    select: { id: true, quantityMilli: true, receivedMilli: true, cancelledMilli: true },
    orderBy: { id: "asc" },
  });
  expect(ordered).toEqual(
    told.lines.map((line, at) => ({
      id: lines[at]?.id,
      quantityMilli: line.ordered,
      receivedMilli: line.received,
      cancelledMilli: line.cancelled,
    })),
  );
}
