import fc from "fast-check";
import { beforeAll, expect, it } from "vitest";
import { countPart } from "@/lib/data/stock/counts";
import { recordMove } from "@/lib/data/stock/moves";
import { provePart } from "@/lib/data/stock/parts";
import { releaseIn, reserveIn, useReserved } from "@/lib/data/stock/reservations";
import { createPart } from "@/lib/data/stock/save";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { NewPartSchema } from "@/lib/schemas/stock";
import { oneJob } from "../support/oneJob";
import { twoShops } from "../support/shops";

let a: ShopHandle;
const jobs: number[] = [];
let made = 0;

beforeAll(async () => {
  ({ a } = await twoShops());
  for (let i = 0; i < 3; i++) jobs.push((await oneJob(a)).jobId);
});

const pieces = fc.integer({ min: 1, max: 6 });
const act = fc.oneof(
  fc.record({ act: fc.constant("receipt" as const), pieces, cost: fc.integer({ min: 1, max: 90_000 }) }),
  fc.record({ act: fc.constant("scrap" as const), pieces }),
  fc.record({ act: fc.constant("reserve" as const), pieces, job: fc.nat(2) }),
  fc.record({ act: fc.constant("use" as const), pieces, job: fc.nat(2) }),
  fc.record({ act: fc.constant("release" as const), job: fc.nat(2) }),
  fc.record({ act: fc.constant("count" as const), pieces: fc.integer({ min: 0, max: 9 }) }),
);

/** The same rules told a second time, without a database: what is on hand, and who is promised and short of what. */
interface Told {
  onHand: number;
  wishes: { job: number; held: number; short: number; open: boolean }[];
}
const promised = (told: Told) => told.wishes.reduce((sum, wish) => sum + wish.held, 0);
function fill(told: Told): void {
  let free = told.onHand - promised(told);
  for (const wish of told.wishes.filter((w) => w.open).toSorted((x, y) => x.job - y.job)) {
    const more = Math.min(free, wish.short);
    wish.held += more;
    wish.short -= more;
    free -= more;
  }
}

it("on hand is the sum of the moves, and promises are what a replay by hand says, after any run of acts", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(act, { minLength: 1, maxLength: 25 }), async (acts) => {
      const partId = await createPart(
        a,
        NewPartSchema.parse({ code: `P-${++made}`, name: "Spring", kind: "spring", unit: "each" }),
      );
      const told: Told = { onHand: 0, wishes: [] };
      for (const step of acts) {
        const refused = await carryOut(partId, step).then(
          () => false,
          (cause: unknown) => {
            if (cause instanceof Refusal) return true;
            throw cause;
          },
        );
        expect(refused, JSON.stringify(step)).toBe(!replay(told, step));
      }
      const { ledgerMilli, onHandMilli } = await provePart(a, partId);
      const part = await a.read.part.findUniqueOrThrow({
        where: { id: partId },
        select: { reservedMilli: true },
      });
      const held = await a.read.reservation.aggregate({ where: { partId }, _sum: { heldMilli: true } });
      expect(onHandMilli).toBe(told.onHand * 1000);
      expect(ledgerMilli).toBe(onHandMilli);
      expect(part.reservedMilli).toBe(promised(told) * 1000);
      expect(held._sum.heldMilli ?? 0).toBe(part.reservedMilli);
      expect(part.reservedMilli).toBeLessThanOrEqual(onHandMilli);
      for (const jobId of jobs) await a.write((tx) => releaseIn(tx, a, jobId));
    }),
    { numRuns: 25 },
  );
}, 120_000);

type Act = typeof act extends fc.Arbitrary<infer T> ? T : never;

async function carryOut(partId: number, step: Act): Promise<unknown> {
  const jobId = "job" in step ? (jobs[step.job] as number) : 0;
  switch (step.act) {
    case "receipt":
      return recordMove(a, {
        partId,
        kind: "receipt",
        quantityMilli: step.pieces * 1000,
        unitCostE4: step.cost,
      });
    case "scrap":
      return recordMove(a, { partId, kind: "scrap", quantityMilli: step.pieces * 1000, why: "burred" });
    case "reserve":
      return a.write((tx) => reserveIn(tx, a, { jobId, partId, wantedMilli: step.pieces * 1000 }));
    case "release":
      return a.write((tx) => releaseIn(tx, a, jobId));
    case "count": {
      const { onHandMilli } = await provePart(a, partId);
      return countPart(a, { partId, countedMilli: step.pieces * 1000, seenMilli: onHandMilli });
    }
    case "use": {
      const held = await a.read.reservation.findFirst({
        where: { partId, jobId, state: "held", heldMilli: { gt: 0 } },
        select: { id: true },
        orderBy: { id: "asc" },
      });
      // biome-ignore lint/correctness/useHookAtTopLevel: parts are used here, no React hook
      return useReserved(a, { reservationId: held?.id ?? 0, quantityMilli: step.pieces * 1000 });
    }
  }
}

/** Carries the act out on paper; false where it must be refused. */
function replay(told: Told, step: Act): boolean {
  switch (step.act) {
    case "receipt":
      told.onHand += step.pieces;
      fill(told);
      return true;
    case "scrap":
      if (told.onHand - promised(told) < step.pieces) return false;
      told.onHand -= step.pieces;
      return true;
    case "reserve": {
      const held = Math.min(step.pieces, told.onHand - promised(told));
      told.wishes.push({ job: step.job, held, short: step.pieces - held, open: true });
      return true;
    }
    case "release":
      for (const wish of told.wishes.filter((w) => w.job === step.job && w.open)) {
        wish.held = 0;
        wish.short = 0;
        wish.open = false;
        fill(told);
      }
      return true;
    case "count": {
      let missing = promised(told) - step.pieces;
      for (const wish of told.wishes.toSorted(
        (x, y) => y.job - x.job || told.wishes.indexOf(y) - told.wishes.indexOf(x),
      )) {
        const back = Math.max(0, Math.min(missing, wish.held));
        wish.held -= back;
        wish.short += back;
        missing -= back;
      }
      const more = step.pieces > told.onHand;
      told.onHand = step.pieces;
      if (more) fill(told);
      return true;
    }
    case "use": {
      const wish = told.wishes.find((w) => w.job === step.job && w.held > 0 && w.open);
      if (!wish || wish.held < step.pieces) return false;
      wish.held -= step.pieces;
      told.onHand -= step.pieces;
      if (wish.held + wish.short === 0) wish.open = false;
      return true;
    }
  }
}
