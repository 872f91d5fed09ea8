import { setTimeout as pause } from "node:timers/promises";
import pg from "pg";
import { configuration } from "@/lib/configuration/configuration";
import { log } from "@/lib/log/log";
import { CONNECT_MS } from "./postgres";
import { demandAddress, serverSaid } from "./servers";

export type Use = "read" | "write";

const GOODBYE_MS = 5_000;

const kept = globalThis as unknown as { throttlewrightPools?: Map<string, pg.Pool> };

/** One pool for reads and one for writes serve every schema of a server. */
export function pool(server: string, use: Use): pg.Pool {
  kept.throttlewrightPools ??= new Map();
  const key = `${use} ${server}`;
  const found = kept.throttlewrightPools.get(key) ?? opened(server, use);
  kept.throttlewrightPools.set(key, found);
  return found;
}

/** The pool's own bound counts the wait for a connection of others too: this one is of connecting alone. */
class PatientClient extends pg.Client {
  constructor(config?: pg.ClientConfig) {
    super({ ...config, connectionTimeoutMillis: CONNECT_MS });
  }
}

function opened(server: string, use: Use): pg.Pool {
  const { DATABASE_READERS, DATABASE_WRITERS } = configuration();
  const { pooled, behindPooler } = demandAddress(server);
  const made = new pg.Pool({
    connectionString: pooled,
    Client: PatientClient,
    max: use === "read" ? DATABASE_READERS : DATABASE_WRITERS,
    onConnect: async (client) => {
      bounded(client, use);
      // The server itself refuses a write on a reader. Behind a pooler a session is anybody's, and must stay as it is.
      if (use === "read" && !behindPooler) await client.query("SET default_transaction_read_only = on");
    },
  });
  // Each open shop listens to the pool; the count is bounded by SHOPS_OPEN.
  made.setMaxListeners(0);
  made.on("error", (cause) =>
    log().warn({ err: cause, server: serverSaid(server) }, "PostgreSQL closed an idle connection."),
  );
  return made;
}

export async function closePool(): Promise<void> {
  const open = [...(kept.throttlewrightPools?.values() ?? [])];
  delete kept.throttlewrightPools;
  // A machine that has gone does not say good-bye: the others are not kept waiting for it, nor is the end of the process.
  await Promise.all(
    open.map((one) => Promise.race([one.end(), pause(GOODBYE_MS, undefined, { ref: false })])),
  );
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
