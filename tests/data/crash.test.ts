import Database from "better-sqlite3";
import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { beginSeries } from "@/lib/data/shop/numbers";
import { prepareShop } from "@/lib/data/shop/prepare";
import { createShopDatabase } from "@/lib/db/migrate";
import { closeShop, shopFile } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { nameShop } from "../support/invoices";
import { enterRate, type TwoShops, twoShops } from "../support/shops";
import { demandWhole, workThenKill } from "../support/workThenKill";

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

describe("a server killed in the middle of use", () => {
  for (const [turn, ms] of [15, 90, 240, 420].entries())
    it(`loses nothing it had acknowledged and leaves books that add up (killed after ${ms} ms)`, async () => {
      const database = `killed_${process.pid}_${turn}`;
      await createShopDatabase({ database, server: "" });
      const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, shops.a.now);
      await prepareShop(shop, { name: "Killed shop", country: "AU" });
      await enterRate(shop);
      await nameShop(shop);
      const yearly = turn % 2 === 1;
      if (yearly) await beginSeries(shop, { kind: "invoice", first: 42, prefix: "F-", yearly });
      await closeShop(database);

      const said = await workThenKill<Said>("workUntilKilled.ts", [database], { ms, begun: '"invoiceId"' });

      // A file can be torn by a crash; a PostgreSQL server answers for its own.
      if (!process.env.DATABASE_URL) demandWhole(new Database(shopFile(database)));
      const again = handleFor({ slug: database, database, server: "" }, SYSTEM, shops.a.now);
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
      const written = await again.read.invoice.findMany({
        where: { state: "issued" },
        select: { written: true },
        orderBy: { number: "asc" },
      });
      expect(written.map((row) => row.written)).toEqual(
        written.map((_, at) => (yearly ? `F-2026-${String(42 + at).padStart(4, "0")}` : String(2001 + at))),
      );
    });
});
