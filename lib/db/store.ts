import { Mutex } from "async-mutex";
import { Refusal } from "@/lib/domain/refusal";

/** What a Prisma client must offer here; both kinds of database satisfy it. */
export interface TransactingClient<Tx> {
  $transaction<T>(
    run: (tx: Tx) => Promise<T>,
    options?: { maxWait?: number; timeout?: number; isolationLevel?: never },
  ): Promise<T>;
  $disconnect(): Promise<void>;
}

/** A database with one way to read and one way to write. */
export interface Store<Client, Tx> {
  readonly read: Client;
  /** Runs `run` in one transaction, the write lock taken first. */
  write<T>(run: (tx: Tx) => Promise<T>): Promise<T>;
  close(): Promise<void>;
  /** True while a write runs or waits. */
  busy(): boolean;
}

/** An import of twenty thousand rows takes half a minute, and gives way to requests meanwhile. */
const LIMITS = { maxWait: 20_000, timeout: 120_000 };
const TRIES = 6;

/**
 * SQLite: reads on a read-only connection, writes one at a time on another, whose transactions begin with
 * the write lock (clients.ts): one that came to it later would fail with SQLITE_BUSY at once.
 */
export function sqliteStore<Client extends TransactingClient<Tx>, Tx>(
  read: Client,
  writer: Client,
): Store<Client, Tx> {
  const turn = new Mutex();
  return {
    read,
    busy: () => turn.isLocked(),
    write: (run) => turn.runExclusive(() => again(isBusy, () => writer.$transaction(run, LIMITS))),
    close: () => turn.runExclusive(() => closeAll(read, writer)),
  };
}

/**
 * PostgreSQL: serialisable transactions, tried again where the server found a conflict with another process.
 * Within this one the writers of a database queue before they take a connection, so that a busy shop does not
 * hold the whole pool. With `lock`, the first statement, they queue across processes as well.
 */
export function postgresStore<Client extends TransactingClient<Tx>, Tx>(
  read: Client,
  writer: Client,
  lock: (tx: Tx) => Promise<unknown> = async () => undefined,
): Store<Client, Tx> {
  // Every statement is a round trip here, and an import is thousands of them.
  const options = { ...LIMITS, timeout: 60_000, isolationLevel: "Serializable" as never };
  const turn = new Mutex();
  return {
    read,
    busy: () => turn.isLocked(),
    write: (run) =>
      turn.runExclusive(() =>
        again(isConflict, () =>
          writer.$transaction(async (tx) => {
            await lock(tx);
            return run(tx);
          }, options),
        ),
      ),
    close: () => turn.runExclusive(() => closeAll(read, writer)),
  };
}

/** In a turn of its own: a write that came meanwhile waits, and opens the database again. */
async function closeAll(...clients: { $disconnect(): Promise<void> }[]): Promise<void> {
  for (const client of clients) await client.$disconnect();
}

async function again<T>(retryable: (cause: unknown) => boolean, run: () => Promise<T>): Promise<T> {
  for (let turn = 1; ; turn++) {
    try {
      return await run();
    } catch (cause) {
      if (!retryable(cause)) throw asRefusal(cause);
      if (turn === TRIES) throw busy();
      // Spread, or two processes that met once would meet again.
      const wait = 15 * 2 ** turn * (0.5 + Math.random());
      await new Promise((resume) => setTimeout(resume, wait));
    }
  }
}

function text(cause: unknown): string {
  return cause instanceof Error
    ? `${cause.message} ${(cause as { code?: string }).code ?? ""}`
    : String(cause);
}

function isBusy(cause: unknown): boolean {
  return /SQLITE_BUSY|database is locked|SocketTimeout|P1008|P2028.*Unable to start/i.test(text(cause));
}

function isConflict(cause: unknown): boolean {
  return /P2034|`40001`|`40P01`|could not serialize|deadlock detected|TransactionWriteConflict/i.test(
    text(cause),
  );
}

/** Full disks and read-only folders are for the person who runs the server to mend: say so. */
function asRefusal(cause: unknown): unknown {
  const said = text(cause);
  if (/disk is full|SQLITE_FULL|ENOSPC|No space left on device/i.test(said))
    return new Refusal(
      "The disk is full: this was not saved.",
      "Free some space on the server, then do it again.",
    );
  if (/readonly database|SQLITE_READONLY|EROFS/i.test(said))
    return new Refusal(
      "The data folder is read-only: this was not saved.",
      "Make the data folder writable, then do it again.",
    );
  if (/`25006`|read-only transaction/i.test(said))
    return new Refusal(
      "The database server takes no writes: this was not saved.",
      "Point DATABASE_URL at the primary server, then do it again.",
    );
  if (/`55P03`|lock timeout/i.test(said)) return busy();
  return cause;
}

function busy(): Refusal {
  return new Refusal("The shop's database is busy and nothing was changed.", "Try again in a moment.");
}
