import type pg from "pg";
import { Refusal } from "@/lib/domain/refusal";
import { log } from "@/lib/log/log";
import { connected, inPostgres } from "./postgres";

const KEY = "hashtext('throttlewright in use')";
const AGAIN_MS = 15_000;

interface Hold {
  release(): Promise<void>;
}

/**
 * Held by every server, on a session of its own that ends with it, so that nothing is put back under one, whichever machine it
 * runs on. Refused while a restore runs. A session that the server cuts off is opened anew.
 */
export async function holdDatabase(url: string): Promise<Hold> {
  let session = await held(url);
  let released = false;
  const watch = (client: pg.Client) =>
    client.on("error", (cause) => {
      if (released) return;
      log().warn({ err: cause }, "The session that says this server is in use was cut off.");
      again();
    });
  const again = () =>
    setTimeout(() => {
      held(url).then(
        (client) => {
          session = client;
          if (released) client.end().catch(() => undefined);
          else watch(client);
        },
        () => released || again(),
      );
    }, AGAIN_MS).unref();
  watch(session);
  return {
    release: async () => {
      released = true;
      await session.end();
    },
  };
}

async function held(url: string): Promise<pg.Client> {
  const client = await connected(url);
  const { rows } = await client.query<{ held: boolean }>(
    `SELECT pg_try_advisory_lock_shared(${KEY}) AS held`,
  );
  if (rows[0]?.held) return client;
  await client.end();
  throw new Refusal(
    "A restore, or a move of a shop, is running on this database.",
    "Wait until it has ended. Nothing was changed.",
  );
}

/** Runs a restore, or what else `act` says, while no server uses the installation whose directory is there. */
export function withDatabaseAlone<T>(url: string, run: () => Promise<T>, act = "restore"): Promise<T> {
  return inPostgres(url, async (client) => {
    const { rows } = await client.query<{ held: boolean }>(`SELECT pg_try_advisory_lock(${KEY}) AS held`);
    if (rows[0]?.held) return run();
    throw new Refusal(
      "A server, or another restore, is using this database.",
      `Stop it on every machine, then ${act}. Nothing was changed.`,
    );
  });
}
