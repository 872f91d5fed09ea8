import { rowsOf } from "@/lib/db/plainSql";
import type { ShopReader } from "@/lib/db/shop";
import type { Days } from "@/lib/domain/taxReport/periods";
import type { TaxCell } from "@/lib/domain/taxReport/summary";

/** What a row of money settles: below zero for what went back or never came. */
const SETTLED = `CASE WHEN p."kind" IN ('refund', 'bounced') THEN p."roundingMinor" - p."amountMinor" ELSE p."amountMinor" - p."roundingMinor" END`;

/** That the row pays its document as a whole, once that was there. */
const IN_FULL = `p."kind" <> 'writeOff' AND p."at" >= i."createdAt" AND ${SETTLED} <> 0
  AND ${SETTLED} = (SELECT SUM(w."netMinor" + w."taxMinor") FROM "InvoiceTax" w WHERE w."invoiceId" = i."id")`;

/**
 * Counter sales of one document, and invoices of jobs without deposits and credit notes, that one payment pays as a whole: most of what
 * a shop does. By money all of it counts on the day of that payment, as its document charges it, so that the database can add it up;
 * `entriesByMoney` says the same of each. `p` is the payment, `i` the document. A plus and a cast keep SQLite from looking for
 * all rows without a sale or a credited invoice, or all that are issued.
 */
const PLAIN = {
  sale: `FROM "Payment" p JOIN "Invoice" i ON i."saleId" = p."saleId" AND CAST(i."state" AS TEXT) = 'issued'
WHERE ${IN_FULL}
  AND NOT EXISTS (SELECT 1 FROM "Payment" o WHERE o."saleId" = p."saleId" AND o."id" <> p."id")
  AND NOT EXISTS (SELECT 1 FROM "Invoice" o WHERE o."saleId" = p."saleId" AND CAST(o."state" AS TEXT) = 'issued' AND o."id" <> i."id")`,
  invoice: `FROM "Payment" p JOIN "Invoice" i ON i."id" = p."invoiceId" AND CAST(i."state" AS TEXT) = 'issued'
WHERE ${IN_FULL} AND +p."saleId" IS NULL AND +i."saleId" IS NULL AND +i."creditsId" IS NULL AND i."prepaidMinor" = 0
  AND NOT EXISTS (SELECT 1 FROM "Payment" o WHERE o."invoiceId" = i."id" AND o."id" <> p."id")
  AND NOT EXISTS (SELECT 1 FROM "Invoice" o WHERE o."creditsId" = i."id")`,
} as const;

/** What those of them come to by category and rate whose payment is dated in some days. */
export async function plainCells(read: ShopReader, { from, to }: Days): Promise<TaxCell[]> {
  const cells: TaxCell[] = [];
  for (const kind of ["sale", "invoice"] as const) {
    const rows = await rowsOf<"category" | "rate" | "net" | "tax" | "count">(
      read,
      `SELECT t."category" AS "category", t."rateBp" AS "rate", CAST(SUM(t."netMinor") AS BIGINT) AS "net",
  CAST(SUM(t."taxMinor") AS BIGINT) AS "tax", CAST(COUNT(*) AS BIGINT) AS "count"
FROM (SELECT i."id" AS "id" ${PLAIN[kind]} AND p."paidOn" >= ? AND p."paidOn" <= ?) AS "plain"
JOIN "InvoiceTax" t ON t."invoiceId" = "plain"."id"
WHERE t."netMinor" <> 0 OR t."taxMinor" <> 0 GROUP BY t."category", t."rateBp"`,
      from,
      to,
    );
    for (const row of rows)
      cells.push({
        category: String(row.category),
        rateBp: Number(row.rate),
        netMinor: Number(row.net),
        taxMinor: Number(row.tax),
        count: Number(row.count),
      });
  }
  return cells;
}

/** The sales and invoices that something happened to in some days, without those that are so plain. */
export async function touchedBesides(read: ShopReader, { from, to }: Days) {
  const days = [from, to, from, to];
  const ids = async (sql: string) => (await rowsOf<"id">(read, sql, ...days)).map((row) => Number(row.id));
  return {
    sales: await ids(`SELECT "touched"."id" AS "id" FROM (
  SELECT m."saleId" AS "id" FROM "Payment" m WHERE +m."saleId" IS NOT NULL AND m."paidOn" >= ? AND m."paidOn" <= ?
  UNION SELECT d."saleId" FROM "Invoice" d WHERE +d."saleId" IS NOT NULL AND CAST(d."state" AS TEXT) = 'issued' AND d."issuedOn" >= ? AND d."issuedOn" <= ?
) AS "touched" WHERE NOT EXISTS (SELECT 1 ${PLAIN.sale} AND p."saleId" = "touched"."id")`),
    invoices: await ids(`SELECT "touched"."id" AS "id" FROM (
  SELECT m."invoiceId" AS "id" FROM "Payment" m WHERE +m."saleId" IS NULL AND +m."invoiceId" IS NOT NULL AND m."paidOn" >= ? AND m."paidOn" <= ?
  UNION SELECT COALESCE(d."creditsId", d."id") FROM "Invoice" d WHERE +d."saleId" IS NULL AND CAST(d."state" AS TEXT) = 'issued' AND d."issuedOn" >= ? AND d."issuedOn" <= ?
) AS "touched" WHERE NOT EXISTS (SELECT 1 ${PLAIN.invoice} AND p."invoiceId" = "touched"."id")`),
  };
}
