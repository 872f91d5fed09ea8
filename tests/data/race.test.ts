import { expect, it } from "vitest";
import { createPart } from "@/lib/data/parts/save";
import { recordMove } from "@/lib/data/stock/moves";
import { NewPartSchema } from "@/lib/schemas/parts";
import { atOnce, type Ran } from "../support/atOnce";
import { oneJob } from "../support/oneJob";
import { twoShops } from "../support/shops";

/**
 * Reservations of each process; RACE_EACH sets another number (2,000 take minutes on PostgreSQL, where each is many round
 * trips). More than there is, so that whoever is quicker runs short as well.
 */
const EACH = Number(process.env.RACE_EACH ?? (process.env.DATABASE_URL ? 400 : 2_000));
const THERE = EACH * 0.75;

interface Reserved {
  readonly held: number;
  readonly short: number;
  readonly errors: readonly string[];
  readonly told: readonly number[];
}

it(`two processes making ${2 * EACH} reservations of one part never reserve more than there is, and nobody sees an error`, async () => {
  const { a, b } = await twoShops();
  const partId = await createPart(
    a,
    NewPartSchema.parse({ code: "MJ-125", name: "Main jet 125", kind: "other", unit: "each" }),
  );
  await recordMove(a, { partId, kind: "opening", quantityMilli: THERE * 1000 });
  const first = await oneJob(a);
  const second = await oneJob(a);
  const script = (jobId: number) => ["tests/support/reserveMany.ts", a.slug, partId, jobId, EACH].map(String);
  const [one, two] = (await atOnce<Reserved>([script(first.jobId), script(second.jobId)])) as [
    Reserved & Ran,
    Reserved & Ran,
  ];
  expect([...one.errors, ...two.errors]).toEqual([]);
  expect(one.held + two.held).toBe(THERE * 1000);
  expect(one.held + one.short + two.held + two.short).toBe(2 * EACH * 1000);
  // Whoever ran short was told of each piece who has it.
  expect([one.told, two.told]).toEqual([[THERE * 1000], [THERE * 1000]]);
  // It was a race: each began before the other had finished.
  expect(Math.max(one.began, two.began)).toBeLessThan(Math.min(one.ended, two.ended));
  const sum = await a.read.reservation.aggregate({ where: { partId }, _sum: { reservedMilli: true } });
  const part = await a.read.part.findUniqueOrThrow({
    where: { id: partId },
    select: { onHandMilli: true, reservedMilli: true },
  });
  expect(sum._sum.reservedMilli).toBe(THERE * 1000);
  expect(part).toEqual({ onHandMilli: THERE * 1000, reservedMilli: THERE * 1000 });
  expect(await b.read.reservation.findFirst({ select: { id: true }, orderBy: { id: "asc" } })).toBeNull();
}, 240_000);
