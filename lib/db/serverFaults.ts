import { setTimeout as pause } from "node:timers/promises";
import pg from "pg";
import { log } from "@/lib/log/log";
import { codeOf, inWords, isUnreachable } from "./postgres";
import { addressOf } from "./servers";

/** Why the shops of one server cannot be opened, while those of the others are. */
export interface ServerFault {
  readonly reason: string;
  /** False for what may pass by itself. */
  readonly lasting: boolean;
}

/** A server is asked at most so often whether it answers, by each process. */
const AGAIN_MS = 30_000;
/** What fails just after it was asked may say something new. */
const AFRESH_MS = 250;
const PATIENCE_MS = 5_000;

interface Asked {
  readonly url: string;
  readonly fault: Promise<ServerFault | null>;
  /** When it had answered, or not; undefined as long as it is waited for. */
  endedAt?: number;
}

// The server and the bundled pages hold a copy of this module each: a server is asked for both at once.
const kept = globalThis as unknown as { throttlewrightServers?: Map<string, Asked> };
kept.throttlewrightServers ??= new Map();
const servers = kept.throttlewrightServers;

/**
 * Whether one of DATABASE_SERVERS can be used: null where it can. Asked before anything waits for it, on a connection of its own, since
 * one that is open to a machine that has gone is silent for a quarter of an hour. DATABASE_URL's own is not asked: without it nothing
 * is known of any shop. `afresh`: what was known some seconds ago does not do.
 */
export async function serverFault(server: string, afresh = false): Promise<ServerFault | null> {
  if (server === "") return null;
  const url = addressOf(server)?.pooled;
  if (url === undefined) return serverUnknown(server);
  const known = servers.get(server);
  const counts = known?.url === url && age(known) < (afresh ? AFRESH_MS : AGAIN_MS);
  if (counts) return known.fault;
  const asked: Asked = { url, fault: ask(server, url) };
  servers.set(server, asked);
  const fault = await asked.fault;
  asked.endedAt = performance.now();
  return fault;
}

const age = ({ endedAt }: Asked) => (endedAt === undefined ? 0 : performance.now() - endedAt);

/** What is wrong with a server that the settings do not name. */
export const serverUnknown = (server: string): ServerFault => ({
  reason: `Its database server ${server} is not in the settings (DATABASE_SERVERS).`,
  lasting: true,
});

/**
 * Waits for what one of DATABASE_SERVERS is asked as long as it can be used, which is looked at after each few seconds: a connection that
 * is open to a machine that has gone, or to a pooler before it, tells of nothing for minutes. Where it cannot be used what was asked is left
 * to itself, and the fault is the answer.
 */
export async function whileUsable<T>(
  server: string,
  run: () => Promise<T>,
): Promise<{ readonly answer: T } | { readonly fault: ServerFault }> {
  const running = run().then((answer) => ({ answer }));
  // Heard below, unless it is left to itself.
  running.catch(() => undefined);
  for (;;) {
    const ended = new AbortController();
    const late = pause(PATIENCE_MS, null, { ref: false, signal: ended.signal }).catch(() => null);
    const answered = await Promise.race([running, late]).finally(() => ended.abort());
    if (answered) return answered;
    const fault = await serverFault(server, true);
    if (fault) return { fault };
  }
}

/** Servers are asked anew. */
export function forgetServers(): void {
  servers.clear();
}

async function ask(server: string, url: string): Promise<ServerFault | null> {
  try {
    await answers(url);
    return null;
  } catch (cause) {
    // It answers, and those that are connected go on.
    if (codeOf(cause) === "53300") return null;
    const told = inWords(url, cause);
    log().error(
      { server, err: told ?? cause, remedy: told?.remedy },
      "A database server cannot be used. The shops of the others run.",
    );
    const silent = isUnreachable(cause);
    return {
      reason: `Its database server ${server} ${silent ? "does not answer" : "cannot be used"}.`,
      lasting: false,
    };
  }
}

async function answers(url: string): Promise<void> {
  const client = new pg.Client({
    connectionString: url,
    connectionTimeoutMillis: PATIENCE_MS,
    query_timeout: PATIENCE_MS,
  });
  // What breaks after it was asked is of no matter.
  client.on("error", () => undefined);
  try {
    await client.connect();
    await client.query("SELECT 1");
  } finally {
    // Not waited for: a machine that has gone does not say good-bye.
    client.end().catch(() => undefined);
  }
}
