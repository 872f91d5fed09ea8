import type { AsyncLocalStorage } from "node:async_hooks";
import { setTimeout as pause } from "node:timers/promises";
import type { getPrismaClient } from "@prisma/client/runtime/client";
import type { SqlDriverAdapter, SqlQuery } from "@prisma/driver-adapter-utils";
import { type OpenTransaction, tellingOf } from "./openTransaction";

export type PrismaEngine = InstanceType<ReturnType<typeof getPrismaClient>>["_engine"];
type Asked<What extends keyof PrismaEngine> = PrismaEngine[What] extends (...given: infer G) => unknown
  ? G
  : never;
type Transacting = "start" | "commit" | "rollback";

interface Begun {
  depth: number;
  readonly on: OpenTransaction;
}

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
  readonly #begun = new Map<string, Begun>();

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
      return (await connection.queryRaw(asked(sql, values))).rows;
    });
  }

  /** The same within a transaction that was begun here. */
  askWithin(id: string, sql: string, values: readonly unknown[]): Promise<unknown[][]> {
    return this.#within(id, () => this.#open(id).rows(asked(sql, values)));
  }

  /** Changes rows within a transaction that was begun here; answers how many. */
  changeWithin(id: string, sql: string, values: readonly unknown[]): Promise<number> {
    return this.#within(id, () => this.#open(id).change(asked(sql, values)));
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
    let on: OpenTransaction | undefined;
    const told = (connection: SqlDriverAdapter) =>
      tellingOf(connection, (begun) => {
        on = begun;
      });
    const answer = await this.#within(within, run, action === "start" ? told : undefined);
    if (action === "commit") this.#ended(given.id);
    else this.#noteBegun(answer.id, on);
    return answer;
  }

  #noteBegun(id: string, on: OpenTransaction | undefined): void {
    const outer = this.#begun.get(id);
    if (outer) outer.depth++;
    else if (on) this.#begun.set(id, { depth: 1, on });
    else throw new Error("Prisma began a transaction elsewhere than on its connection.");
  }

  #open(id: string): OpenTransaction {
    return (this.#begun.get(id) as Begun).on;
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
      for (const [id, { depth }] of begun)
        for (let level = 0; level < depth; level++)
          await this.#bound.run(connection, () =>
            this.#shared.transaction("rollback", {}, { id, payload: undefined }),
          );
    } finally {
      await connection.dispose();
    }
  }

  async #within<T>(
    transaction: string | null,
    run: () => Promise<T>,
    told = (connection: SqlDriverAdapter) => connection,
  ): Promise<T> {
    while (this.#closing) await this.#closing;
    if (transaction !== null && !this.#begun.has(transaction))
      throw new Error("This transaction has ended, or belongs to another database.");
    this.#running++;
    try {
      return await this.#bound.run(told(await this.#connection()), run);
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
    const begun = this.#begun.get(id);
    if (begun && --begun.depth === 0) this.#begun.delete(id);
  }
}

const asked = (sql: string, values: readonly unknown[]): SqlQuery => ({
  sql,
  args: [...values],
  argTypes: values.map(() => AS_IT_IS),
});
