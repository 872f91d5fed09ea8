import { rowsOf } from "@/lib/db/plainSql";
import type { ShopReader } from "@/lib/db/shop";

/** So many invoices, and as many sales, are added up in one statement: it holds the event loop while it runs. */
const AT_ONCE = 500;

/** What invoices and sales stand at: owed by customers, owed back to them, and held for jobs whose invoice was taken back. */
export interface Stand {
  readonly receivable: number;
  readonly customerBalance: number;
  readonly deposits: number;
}

/** A row of money as what it settles: below zero for what went back or never came. */
const SETTLED = `CASE WHEN p."kind" IN ('refund', 'bounced') THEN p."roundingMinor" - p."amountMinor" ELSE p."amountMinor" - p."roundingMinor" END`;

/**
 * What an invoice of jobs came to less what was paid of it, before a day, its credit notes with it. Once its newest credit note takes
 * all of it back, whatever came is held for the jobs: in which order things happened makes no difference to the sums. A plus, a
 * cast and an empty text keep SQLite from looking for all rows without a sale, all that are issued or all of some days.
 */
const INVOICES = `
SELECT i."id" AS "id",
  CASE WHEN i."issuedOn" < ? THEN i."grossMinor" - i."prepaidMinor" ELSE 0 END
  + COALESCE((SELECT SUM(d."grossMinor" - d."prepaidMinor") FROM "Invoice" d
    WHERE d."id" IN (SELECT n."id" FROM "Invoice" n WHERE n."creditsId" = i."id") AND +d."saleId" IS NULL AND CAST(d."state" AS TEXT) = 'issued' AND d."issuedOn" || '' < ?), 0)
  - COALESCE((SELECT SUM(${SETTLED}) FROM "Payment" p
    WHERE p."invoiceId" = i."id" AND +p."saleId" IS NULL AND p."paidOn" || '' < ?), 0) AS "minor",
  CASE WHEN i."takenBack" = true AND EXISTS (SELECT 1 FROM "Invoice" c
    WHERE c."id" = (SELECT MAX(n."id") FROM "Invoice" n WHERE n."creditsId" = i."id")
      AND +c."saleId" IS NULL AND CAST(c."state" AS TEXT) = 'issued' AND c."issuedOn" < ?) THEN 1 ELSE 0 END AS "closed"
FROM "Invoice" i WHERE i."id" > ? AND i."id" <= ? AND +i."creditsId" IS NULL AND +i."saleId" IS NULL AND CAST(i."state" AS TEXT) = 'issued'`;

/** The same of counter sales, with all their documents; none of them lets its money go. */
const SALES = `
SELECT s."id" AS "id",
  COALESCE((SELECT SUM(d."grossMinor") FROM "Invoice" d
    WHERE d."saleId" = s."id" AND CAST(d."state" AS TEXT) = 'issued' AND d."issuedOn" || '' < ?), 0)
  - COALESCE((SELECT SUM(${SETTLED}) FROM "Payment" p WHERE p."saleId" = s."id" AND p."paidOn" || '' < ?), 0) AS "minor",
  0 AS "closed"
FROM "Sale" s WHERE s."id" > ? AND s."id" <= ?`;

const summed = (rows: string) => `
WITH stands AS MATERIALIZED (${rows})
SELECT CAST(COALESCE(SUM(CASE WHEN "closed" = 0 AND "minor" > 0 THEN "minor" ELSE 0 END), 0) AS BIGINT) AS "receivable",
  CAST(COALESCE(SUM(CASE WHEN "closed" = 0 AND "minor" < 0 THEN "minor" ELSE 0 END), 0) AS BIGINT) AS "customerBalance",
  CAST(COALESCE(SUM(CASE WHEN "closed" = 1 THEN "minor" ELSE 0 END), 0) AS BIGINT) AS "deposits"
FROM stands`;

/** What all invoices and sales stood at before a day, as `poster` has it, added up by the database some hundreds at a time. */
export async function standBefore(read: ShopReader, day: string): Promise<Stand> {
  const [invoice, sale] = await Promise.all([
    read.invoice.findFirst({ select: { id: true }, orderBy: { id: "desc" } }),
    read.sale.findFirst({ select: { id: true }, orderBy: { id: "desc" } }),
  ]);
  const stand = { receivable: 0, customerBalance: 0, deposits: 0 };
  for (let after = 0; after < Math.max(invoice?.id ?? 0, sale?.id ?? 0); after += AT_ONCE) {
    const some = [after, after + AT_ONCE];
    const values = [day, day, day, day, ...some, day, day, ...some];
    const [row] = await rowsOf<keyof Stand>(read, summed(`${INVOICES} UNION ALL ${SALES}`), ...values);
    stand.receivable += Number(row?.receivable ?? 0);
    stand.customerBalance += Number(row?.customerBalance ?? 0);
    stand.deposits += Number(row?.deposits ?? 0);
  }
  return stand;
}
