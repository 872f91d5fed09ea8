import { postgresUrl } from "./folders";
import { ANY_SCHEMA } from "./inSchema";

/** What can be asked in plain SQL. */
export interface PlainReader {
  $queryRawUnsafe<T>(sql: string, ...values: unknown[]): PromiseLike<T>;
}

/**
 * Rows of a read in plain SQL, for sums that the query engine has no words for. `"Table"` after FROM and JOIN is named with the schema
 * of the connection on PostgreSQL, and `?` stands for the values in their order. Sums come as whole numbers: cast them to BIGINT.
 */
export async function rowsOf<Column extends string>(
  read: PlainReader,
  sql: string,
  ...values: readonly (string | number | Date)[]
): Promise<Record<Column, number | string>[]> {
  const rows = await read.$queryRawUnsafe<Record<Column, bigint | number | string | null>[]>(
    postgresUrl() ? inPostgres(sql) : sql,
    ...values,
  );
  return rows.map(
    (row) =>
      Object.fromEntries(
        Object.entries<bigint | number | string | null>(row).map(([column, value]) => [
          column,
          typeof value === "bigint" ? Number(value) : (value ?? 0),
        ]),
      ) as Record<Column, number | string>,
  );
}

/** PostgreSQL counts its placeholders, and one pool serves every schema. */
function inPostgres(sql: string): string {
  let count = 0;
  return sql
    .replaceAll("?", () => `$${++count}`)
    .replaceAll(/\b(FROM|JOIN) "/g, (_, word: string) => `${word} "${ANY_SCHEMA}"."`);
}
