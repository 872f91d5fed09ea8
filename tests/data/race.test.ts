import { type ChildProcess, spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { createPart } from "@/lib/data/parts/save";
import { recordMove } from "@/lib/data/stock/moves";
import { NewPartSchema } from "@/lib/schemas/parts";
import { nodeArgs } from "../support/compiled";
import { oneJob } from "../support/oneJob";
import { twoShops } from "../support/shops";

const root = fileURLToPath(new URL("../..", import.meta.url));
/**
 * Reservations of each process; RACE_EACH sets another number (2,000 take minutes on PostgreSQL, where each is many round
 * trips). More than there is, so that whoever is quicker runs short as well.
 */
const EACH = Number(process.env.RACE_EACH ?? (process.env.DATABASE_URL ? 400 : 2_000));
const THERE = EACH * 0.75;

/** Runs one reserving process up to its start barrier; `go` lets it run and answers what it did. */
async function reserver(database: string, partId: number, jobId: number) {
  const child: ChildProcess = spawn(
    process.execPath,
    [...nodeArgs("tests/support/reserveMany.ts"), database, String(partId), String(jobId), String(EACH)],
    { cwd: root, env: process.env, stdio: ["pipe", "pipe", "pipe"] },
  );
  let said = "";
  let complained = "";
  child.stderr?.on("data", (chunk) => {
    complained += chunk;
  });
  const ended = new Promise<void>((done) => child.on("close", () => done()));
  await new Promise<void>((ready, failed) => {
    child.stdout?.on("data", (chunk) => {
      said += chunk;
      if (said.includes("ready")) ready();
    });
    child.on("close", () => failed(new Error(`The reserving process ended early: ${complained}`)));
  });
  return async () => {
    child.stdin?.write("go\n");
    await ended;
    const answer = said.split("\n").find((line) => line.startsWith("{"));
    if (!answer) throw new Error(`The reserving process said nothing: ${complained}`);
    return JSON.parse(answer) as {
      held: number;
      short: number;
      errors: string[];
      told: number[];
      began: number;
      ended: number;
    };
  };
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
  const starts = await Promise.all([
    reserver(a.slug, partId, first.jobId),
    reserver(a.slug, partId, second.jobId),
  ]);
  const [one, two] = (await Promise.all(starts.map((go) => go()))) as [
    Awaited<ReturnType<(typeof starts)[0]>>,
    Awaited<ReturnType<(typeof starts)[0]>>,
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
