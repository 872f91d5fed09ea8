import type { SqlDriverAdapter, SqlQuery, SqlQueryable } from "@prisma/driver-adapter-utils";

/**
 * What compiled queries of all shops name as their schema. None can have this name, so that a query in which it was not
 * replaced fails.
 */
export const ANY_SCHEMA = "whose schema?";
const NAMED = `"${ANY_SCHEMA}".`;

/** A connection whose queries, and those of its transactions, go to one schema. Values never stand in a query's text. */
export function inSchema(adapter: SqlDriverAdapter, schema: string): SqlDriverAdapter {
  const own = `"${schema}".`;
  const begin = adapter.startTransaction.bind(adapter);
  adapter.startTransaction = async (level) => naming(await begin(level), own);
  return naming(adapter, own);
}

function naming<Q extends SqlQueryable>(queries: Q, own: string): Q {
  const named = (asked: SqlQuery): SqlQuery => ({ ...asked, sql: asked.sql.replaceAll(NAMED, () => own) });
  const [query, execute] = [queries.queryRaw.bind(queries), queries.executeRaw.bind(queries)];
  queries.queryRaw = (asked) => query(named(asked));
  queries.executeRaw = (asked) => execute(named(asked));
  return queries;
}
