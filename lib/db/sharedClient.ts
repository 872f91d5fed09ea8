import { AsyncLocalStorage } from "node:async_hooks";
import { type GetPrismaClientConfig, getPrismaClient } from "@prisma/client/runtime/client";
import type { ConnectionInfo, SqlDriverAdapter, SqlDriverAdapterFactory } from "@prisma/driver-adapter-utils";
import { BoundEngine, type PrismaEngine } from "./boundEngine";
import { demandAsExpected } from "./sharedClientCheck";

type Connect = () => Promise<SqlDriverAdapter>;
export type PlainClient = InstanceType<ReturnType<typeof getPrismaClient>>;
/** What is equal for the connections of a kind. */
export interface Built extends Pick<SqlDriverAdapter, "provider" | "adapterName"> {
  readonly connectionInfo?: ConnectionInfo;
}

type Options = ConstructorParameters<ReturnType<typeof getPrismaClient>>[0];

/** Makes clients of one kind of database, each on a connection of its own. */
export interface SharedClient {
  on(connect: Connect): PlainClient;
}

/** Says of a schema's queries nothing: the client that has it never compiles one. */
const NO_GRAPH = { strings: [], graph: "AAAA" };

/**
 * What a Prisma client needs to compile queries (the schema's graph, the compiler, the plans) takes megabytes and tens of
 * milliseconds, and is equal for all databases of a kind. So one client of each kind compiles and interprets; all others are
 * light: their engine (boundEngine.ts) hands each query to that one's with the connection that the query is for. A light client
 * has its own request handler, so Prisma never merges queries of two clients into one. A query without a connection is refused.
 */
export function sharedClient(Client: new (options: never) => unknown, built: Built): SharedClient {
  const bound = new AsyncLocalStorage<SqlDriverAdapter>();
  let config: GetPrismaClientConfig | undefined;
  const options: Options = {
    adapter: factory(built, () => routed(built, bound)),
    __internal: {
      configOverride: (given) => {
        config = given;
        return given;
      },
    },
  };
  // The clients of each kind are typed by their own schema; they are built by one class.
  const whole = new Client(options as never) as PlainClient;
  if (!config?.parameterizationSchema || !isEngine(whole._engine))
    throw new Error("Prisma's client is not built as this version expects: its parts cannot be shared.");
  const Light = getPrismaClient({ ...config, parameterizationSchema: NO_GRAPH });
  const adapter = factory(built, () => {
    throw new Error("A client that shares its engine has used another.");
  });
  const bind = (connect: Connect): PlainClient => {
    const client = new Light({ adapter });
    client._engine = new BoundEngine(whole._engine, bound, connect);
    return client;
  };
  let checked: Promise<void> | undefined;
  return {
    on: (connect) =>
      bind(async () => {
        checked ??= demandAsExpected(whole, bind, built);
        await checked;
        return connect();
      }),
  };
}

/** A client's way past Prisma: what a statement of text and plain values answers, in rows of values. */
export function askerOf(client: object): BoundEngine["ask"] | undefined {
  // The server's own code and Next.js's bundles each have a copy of the class.
  const { _engine: engine } = client as { readonly _engine?: Partial<Pick<BoundEngine, "ask">> };
  return engine?.ask?.bind(engine as BoundEngine);
}

const SCOPE = Symbol.for("prisma.client.transaction.scope_context");

interface Within {
  rows(sql: string, values: readonly unknown[]): Promise<unknown[][]>;
  change(sql: string, values: readonly unknown[]): Promise<number>;
}

/** The same of a transaction's client, within its transaction: rows of values, or how many rows were changed. */
export function askerWithin(tx: object): Within {
  const { _engine: engine, [SCOPE]: scope } = tx as {
    readonly _engine?: Partial<BoundEngine>;
    readonly [SCOPE]?: { readonly txId?: string };
  };
  const id = scope?.txId;
  if (id === undefined || !engine?.askWithin || !engine.changeWithin)
    throw new Error("This is no transaction of a client that shares its engine.");
  const own = engine as BoundEngine;
  return {
    rows: (sql, values) => own.askWithin(id, sql, values),
    change: (sql, values) => own.changeWithin(id, sql, values),
  };
}

function isEngine(engine: PrismaEngine): boolean {
  return (["start", "stop", "request", "requestBatch", "transaction"] as const).every(
    (name) => typeof engine?.[name] === "function",
  );
}

function factory({ provider, adapterName }: Built, connect: () => SqlDriverAdapter): SqlDriverAdapterFactory {
  return { provider, adapterName, connect: async () => connect() };
}

/** Passes what the shared engine asks to the connection that the query was started with. */
function routed(built: Built, bound: AsyncLocalStorage<SqlDriverAdapter>): SqlDriverAdapter {
  const { provider, adapterName, connectionInfo } = built;
  const connection = () => {
    const found = bound.getStore();
    if (!found) throw new Error("A query came without the database that it is for.");
    return found;
  };
  return {
    provider,
    adapterName,
    ...(connectionInfo && { getConnectionInfo: () => connectionInfo }),
    queryRaw: async (query) => connection().queryRaw(query),
    executeRaw: async (query) => connection().executeRaw(query),
    executeScript: async (script) => connection().executeScript(script),
    startTransaction: async (level) => connection().startTransaction(level),
    // Connections are closed by the clients that they belong to.
    dispose: async () => undefined,
  };
}
