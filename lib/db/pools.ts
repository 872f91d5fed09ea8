import pg from "pg";
import { configuration } from "@/lib/configuration/configuration";
import { log } from "@/lib/log/log";

export type Use = "read" | "write";

const kept = globalThis as unknown as { throttlewrightPools?: Partial<Record<Use, pg.Pool>> };

/** One pool for reads and one for writes serve every schema. */
export function pool(url: string, use: Use): pg.Pool {
  kept.throttlewrightPools ??= {};
  kept.throttlewrightPools[use] ??= opened(url, use);
  return kept.throttlewrightPools[use];
}

function opened(url: string, use: Use): pg.Pool {
  const { DATABASE_READERS, DATABASE_WRITERS, DIRECT_DATABASE_URL } = configuration();
  const made = new pg.Pool({
    connectionString: url,
    max: use === "read" ? DATABASE_READERS : DATABASE_WRITERS,
    onConnect: async (client) => {
      bounded(client, use);
      // The server itself refuses a write on a reader. Behind a pooler a session is anybody's, and must stay as it is.
      if (use === "read" && DIRECT_DATABASE_URL === undefined)
        await client.query("SET default_transaction_read_only = on");
    },
  });
  // Each open shop listens to the pool; the count is bounded by SHOPS_OPEN.
  made.setMaxListeners(0);
  made.on("error", (cause) => log().warn({ err: cause }, "PostgreSQL closed an idle connection."));
  return made;
}

export async function closePool(): Promise<void> {
  const open = Object.values(kept.throttlewrightPools ?? {});
  delete kept.throttlewrightPools;
  for (const one of open) await one.end();
}

/**
 * A write that waits, or whose process stands still, must not keep a shop's turn for ever (store.ts: 60 s). Said with each
 * BEGIN, in the same message: it ends with the transaction, also on a session that a pooler gives to others next.
 */
const BEGIN: Record<Use, string> = {
  read: "BEGIN READ ONLY",
  write: "BEGIN; SET LOCAL lock_timeout = '25s'; SET LOCAL idle_in_transaction_session_timeout = '75s'",
};

const READS = /^\s*(SELECT|WITH|BEGIN|SET|COMMIT|ROLLBACK|SAVEPOINT|RELEASE|DEALLOCATE)\b/i;

/** Gives transactions their bounds, and keeps a reader from writing where the server cannot be told to. */
function bounded(client: pg.ClientBase, use: Use): void {
  const ask = client.query.bind(client) as (...asked: unknown[]) => unknown;
  const query = (asked: unknown, ...rest: unknown[]): unknown => {
    const text = typeof asked === "string" ? asked : ((asked as { text?: string } | null)?.text ?? "");
    if (use === "read" && !READS.test(text)) return refused(rest.at(-1));
    if (text !== "BEGIN") return ask(asked, ...rest);
    return ask(typeof asked === "string" ? BEGIN[use] : { ...(asked as object), text: BEGIN[use] }, ...rest);
  };
  Object.assign(client, { query });
}

/** As the server says it, so that whoever asked sees the same. Source: PostgreSQL's error codes, class 25. */
function refused(told: unknown): unknown {
  const cause = Object.assign(new Error("cannot write in a read-only transaction"), {
    code: "25006",
    severity: "ERROR",
  });
  if (typeof told !== "function") return Promise.reject(cause);
  process.nextTick(told, cause);
  return undefined;
}
