import type { SqlQueryable } from "@prisma/driver-adapter-utils";
import { Mutex } from "async-mutex";

/**
 * A session of PostgreSQL answers one statement at a time, and its driver will not queue them any more (pg 9). Reads that begin together
 * in one transaction, in our code or in Prisma's, so take their turns here.
 */
export function inOrder<Q extends SqlQueryable>(queries: Q): Q {
  const turn = new Mutex();
  const [query, execute] = [queries.queryRaw.bind(queries), queries.executeRaw.bind(queries)];
  queries.queryRaw = (asked) => turn.runExclusive(() => query(asked));
  queries.executeRaw = (asked) => turn.runExclusive(() => execute(asked));
  return queries;
}
