import { createHash } from "node:crypto";
import { inPostgres } from "./postgres";

/**
 * How a schema's rows stand, in a few letters that differ once they are not the very same rows any more. PostgreSQL keeps each
 * version of a row at a place of its own (`ctid`) with the number of the transaction that wrote it (`xmin`), so that no value need be
 * read or sent: tables are passed over, their long values not at all. Source: PostgreSQL's manual, system columns.
 */
export async function schemaStamp(url: string, schema: string): Promise<string> {
  return inPostgres(url, async (client) => {
    const tables = await client.query<{ sql: string }>(
      `SELECT format('SELECT %L AS name, count(*) AS n, sum(hashtextextended(ctid || '' '' || xmin, 0)) AS marks FROM %I.%I', tablename, schemaname, tablename) AS sql
       FROM pg_tables WHERE schemaname = $1`,
      [schema],
    );
    const hash = createHash("sha256");
    if (tables.rows.length) {
      // One statement: one moment of all tables.
      const each = tables.rows.map(({ sql }) => sql).join(" UNION ALL ");
      const { rows } = await client.query(`${each} ORDER BY name`);
      for (const { name, n, marks } of rows) hash.update(`${name} ${n} ${marks}\n`);
    }
    return hash.digest("hex");
  });
}
