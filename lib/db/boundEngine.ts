import type { AsyncLocalStorage } from "node:async_hooks";
import { setTimeout as pause } from "node:timers/promises";
import type { getPrismaClient } from "@prisma/client/runtime/client";
import type { SqlDriverAdapter } from "@prisma/driver-adapter-utils";

export type PrismaEngine = InstanceType<ReturnType<typeof getPrismaClient>>["_engine"];
type Asked<What extends keyof PrismaEngine> = PrismaEngine[What] extends (...given: infer G) => unknown
  ? G
  : never;
type Transacting = "start" | "commit" | "rollback";

const AS_IT_IS = { scalarType: "unknown", arity: "scalar" } as const;

/** So long is a query waited for that a server has stopped answering. */
const PATIENCE_MS = 10_000;

/**
 * The engine of one client: it hands what is asked to the engine that all clients of a kind share, together with the one
 * connection that belongs to this client. It opens that connection with the first query, and again after it was closed.
 */
export class BoundEngine implements PrismaEngine {
  readonly name = "BoundEngine";
  readonly #shared: PrismaEngine;
  readonly #bound: AsyncLocalStorage<SqlDriverAdapter>;
  readonly #connect: () => Promise<SqlDriverAdapter>;
  #opened: Promise<SqlDriverAdapter> | undefined;
  #closing: Promise<void> | undefined;
  #running = 0;
  #rests: (() => void) | undefined;
  /** Transactions that were begun here and have not ended, with how deep they are nested. */
  readonly #begun = new Map<string, number>();

  constructor(
    shared: PrismaEngine,
    bound: AsyncLocalStorage<SqlDriverAdapter>,
    connect: () => Promise<SqlDriverAdapter>,
  ) {
    this.#shared = shared;
    this.#bound = bound;
    this.#connect = connect;
  }

  onBeforeExit(): void {
    throw new Error("This client has no hook before the process ends.");
  }

  version(): string {
    return "bound";
  }

  async start(): Promise<void> {
    await this.#within(null, async () => undefined);
  }

  request<T>(...[query, options]: Asked<"request">) {
    const within = options.interactiveTransaction?.id ?? null;
    return this.#within(within, () => this.#shared.request<T>(query, options));
  }

  /** Asks the connection itself, in the database's own words; answers rows of values. */
  ask(sql: string, values: readonly unknown[]): Promise<unknown[][]> {
    return this.#within(null, async () => {
      const connection = await this.#connection();
      const { rows } = await connection.queryRaw({
        sql,
        args: [...values],
        argTypes: values.map(() => AS_IT_IS),
      });
      return rows;
    });
  }

  requestBatch<T>(...[queries, options]: Asked<"requestBatch">) {
    const within = options.transaction?.kind === "itx" ? options.transaction.options.id : null;
    return this.#within(within, () => this.#shared.requestBatch<T>(queries, options));
  }

  // biome-ignore lint/suspicious/noExplicitAny: Prisma declares three overloads, told apart by the first argument alone.
  async transaction(action: Transacting, headers: any, given: any): Promise<any> {
    const within: string | null = (action === "start" ? given.newTxId : given.id) ?? null;
    const run = () => this.#shared.transaction(action as "start", headers, given);
    if (action === "rollback") return this.#within(within, run).finally(() => this.#ended(given.id));
    const answer = await this.#within(within, run);
    if (action === "commit") this.#ended(given.id);
    else this.#begun.set(answer.id, (this.#begun.get(answer.id) ?? 0) + 1);
    return answer;
  }

  /** Waits for the queries that run, rolls back what is open, and closes the connection. The next query opens another. */
  stop(): Promise<void> {
    const opened = this.#opened;
    if (!opened) return this.#closing ?? Promise.resolve();
    this.#closing ??= this.#close(opened).finally(() => {
      this.#closing = undefined;
    });
    return this.#closing;
  }

  async #close(opened: Promise<SqlDriverAdapter>): Promise<void> {
    if (this.#running > 0) {
      const rests = new Promise<void>((resolve) => {
        this.#rests = resolve;
      });
      await Promise.race([rests, pause(PATIENCE_MS, undefined, { ref: false })]);
    }
    this.#opened = undefined;
    // Where it could not be opened, whoever asked has been told.
    const connection = await opened.catch(() => null);
    if (!connection) return;
    const begun = [...this.#begun];
    this.#begun.clear();
    try {
      for (const [id, depth] of begun)
        for (let level = 0; level < depth; level++)
          await this.#bound.run(connection, () =>
            this.#shared.transaction("rollback", {}, { id, payload: undefined }),
          );
    } finally {
      await connection.dispose();
    }
  }

  async #within<T>(transaction: string | null, run: () => Promise<T>): Promise<T> {
    while (this.#closing) await this.#closing;
    if (transaction !== null && !this.#begun.has(transaction))
      throw new Error("This transaction has ended, or belongs to another database.");
    this.#running++;
    try {
      return await this.#bound.run(await this.#connection(), run);
    } finally {
      if (--this.#running === 0) this.#rests?.();
    }
  }

  #connection(): Promise<SqlDriverAdapter> {
    this.#opened ??= this.#connect().catch((cause) => {
      this.#opened = undefined;
      throw cause;
    });
    return this.#opened;
  }

  #ended(id: string): void {
    const depth = (this.#begun.get(id) ?? 0) - 1;
    if (depth > 0) this.#begun.set(id, depth);
    else this.#begun.delete(id);
  }
}
