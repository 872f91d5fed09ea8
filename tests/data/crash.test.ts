import { spawn } from "node:child_process";
import { join } from "node:path";
import Database from "better-sqlite3";
import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/invariants";
import { prepareShop } from "@/lib/data/prepareShop";
import { createShopDatabase } from "@/lib/db/migrate";
import { closeShop, shopFile } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { nameShop } from "../support/invoices";
import { type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
beforeAll(async () => {
  shops = await twoShops();
});

interface Said {
  ready?: true;
  jobId?: number;
  invoiceId?: number;
  paid?: number;
}

/** Lets a process work for `ms` after its first invoice, then ends it with SIGKILL; answers what it was told is done. */
function workThenKill(database: string, ms: number): Promise<Said[]> {
  return new Promise((resolve, reject) => {
    const child = spawn(join("node_modules/.bin/tsx"), ["tests/support/workUntilKilled.ts", database], {
      env: process.env,
      stdio: ["ignore", "pipe", "pipe"],
      detached: true,
    });
    let text = "";
    let complained = "";
    let counting = false;
    child.stderr.on("data", (chunk: Buffer) => {
      complained += chunk.toString();
    });
    child.stdout.on("data", (chunk: Buffer) => {
      text += chunk.toString();
      if (counting || !text.includes('"invoiceId"')) return;
      counting = true;
      // The whole group: tsx runs the work in a child of its own.
      setTimeout(() => process.kill(-(child.pid as number), "SIGKILL"), ms);
    });
    child.once("error", reject);
    child.once("close", () => {
      const whole = text.split("\n").slice(0, -1);
      if (!counting) reject(new Error(`It stopped by itself: ${complained}`));
      else resolve(whole.map((line) => JSON.parse(line) as Said));
    });
  });
}

describe("a server killed in the middle of use", () => {
  for (const [turn, ms] of [15, 90, 240, 420].entries())
    it(`loses nothing it had acknowledged and leaves books that add up (killed after ${ms} ms)`, async () => {
      const database = `killed_${process.pid}_${turn}`;
      await createShopDatabase(database);
      const shop = handleFor({ slug: database, database }, SYSTEM, shops.a.now);
      await prepareShop(shop, { name: "Killed shop", country: "AU" });
      await nameShop(shop);
      await closeShop(database);

      const said = await workThenKill(database, ms);

      // A file can be torn by a crash; a PostgreSQL server answers for its own.
      if (!process.env.DATABASE_URL) {
        const raw = new Database(shopFile(database));
        expect(raw.pragma("integrity_check", { simple: true })).toBe("ok");
        expect(raw.pragma("foreign_key_check")).toEqual([]);
        raw.close();
      }
      const again = handleFor({ slug: database, database }, SYSTEM, shops.a.now);
      expect(await problemsOf(again)).toEqual([]);
      const jobs = new Set((await again.read.job.findMany({ select: { id: true } })).map((row) => row.id));
      const invoices = new Map(
        (
          await again.read.invoice.findMany({
            select: { id: true, state: true, grossMinor: true, paidMinor: true },
          })
        ).map((row) => [row.id, row]),
      );
      for (const line of said) {
        if (line.jobId) expect(jobs.has(line.jobId), `job ${line.jobId}`).toBe(true);
        if (line.invoiceId)
          expect(invoices.get(line.invoiceId)?.state, `invoice ${line.invoiceId}`).toBe("issued");
        if (line.paid) expect(invoices.get(line.paid)?.paidMinor).toBe(invoices.get(line.paid)?.grossMinor);
      }
      expect(said.some((line) => line.invoiceId)).toBe(true);
    });
});
