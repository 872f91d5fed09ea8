import type pg from "pg";
import { connected } from "@/lib/db/postgres";
import { type DatabasePlace, demandAddress, serverSaid } from "@/lib/db/servers";
import { Refusal } from "@/lib/domain/refusal";

/** What lies ready, under what name, and which schema it takes the place of. */
interface Coming {
  readonly schema: string;
  readonly ready: string;
}

/** What is exchanged on one server. */
export interface Exchange {
  readonly server: string;
  readonly comes: readonly Coming[];
  /** What goes without anything in its place. */
  readonly goes: readonly string[];
}

/**
 * Gives schemas their new contents, in one transaction of each server: all of them or none. What was there keeps its tables under
 * another name. A schema is renamed by one row of the catalogue, so that as many shops as there are fit into a stock server's locks.
 * All transactions have done their work before the first is ended, in the order given: what can fail has failed by then, but for a
 * server that goes away in that moment. Answers what was put aside, under its new name.
 */
export async function swap(
  exchanges: readonly Exchange[],
  asideAs: (schema: string) => string,
): Promise<DatabasePlace[]> {
  const sessions: { readonly server: string; readonly client: pg.Client }[] = [];
  const aside: DatabasePlace[] = [];
  try {
    for (const exchange of exchanges) {
      const { server } = exchange;
      const client = await connected(demandAddress(server).direct);
      sessions.push({ server, client });
      for (const schema of await exchanged(client, exchange, asideAs))
        aside.push({ database: schema, server });
    }
    await commitAll(sessions);
    return aside;
  } finally {
    // What was not committed is undone with its session.
    for (const { client } of sessions) await client.end().catch(() => undefined);
  }
}

async function exchanged(
  client: pg.Client,
  { comes, goes }: Exchange,
  asideAs: (schema: string) => string,
): Promise<string[]> {
  const { rows } = await client.query<{ name: string }>("SELECT nspname AS name FROM pg_namespace");
  const there = new Set(rows.map(({ name }) => name));
  const aside = [...comes.map(({ schema }) => schema), ...goes].filter((schema) => there.has(schema));
  await client.query("BEGIN");
  for (const schema of aside) await client.query(`ALTER SCHEMA "${schema}" RENAME TO "${asideAs(schema)}"`);
  for (const { schema, ready } of comes) await client.query(`ALTER SCHEMA "${ready}" RENAME TO "${schema}"`);
  return aside.map(asideAs);
}

async function commitAll(
  sessions: readonly { readonly server: string; readonly client: pg.Client }[],
): Promise<void> {
  const done: string[] = [];
  for (const { server, client } of sessions) {
    try {
      await client.query("COMMIT");
    } catch (cause) {
      if (done.length === 0) throw cause;
      throw new Refusal(
        `The server ${serverSaid(server)} went away as its shops were put back; those on ${done.join(", ")} are put back.`,
        "See that it answers, then run the same restore once more: nothing is lost by it.",
      );
    }
    done.push(serverSaid(server));
  }
}
