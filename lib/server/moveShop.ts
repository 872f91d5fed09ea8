import { postgresUrl } from "@/lib/db/folders";
import { takeDataFolderAlone } from "@/lib/db/inUse";
import { demandAddress, serverSaid, serverTyped } from "@/lib/db/servers";
import { Refusal } from "@/lib/domain/refusal";
import { say } from "@/lib/log/say";
import { command } from "./command";
import { moveToServer, removeLeft, type ServerMove } from "./moving/moveServer";
import { type Move, moveShop, removeSource } from "./moving/moveShop";

const USE =
  "Use: npm run move-shop -- <slug> --to postgresql|sqlite [--url postgresql://… | --server <name>|main] [--remove-source], with the server stopped";

interface Asked {
  readonly move: Move;
  /** The server of DATABASE_SERVERS that a shop on PostgreSQL goes to; undefined where it changes its kind of database. */
  readonly server: string | undefined;
  readonly remove: boolean;
}

function asked(words: readonly string[]): Asked {
  const values = new Map<string, string | undefined>();
  const rest: string[] = [];
  for (let at = 0; at < words.length; at++) {
    const word = words[at] as string;
    if (["--to", "--url", "--server"].includes(word)) values.set(word, words[++at]);
    else rest.push(word);
  }
  const [slug, more] = rest.filter((word) => !word.startsWith("--"));
  const [to, server] = [values.get("--to"), values.get("--server")];
  if (!slug || more || (to !== "sqlite" && to !== "postgresql"))
    throw new Refusal("A shop and where it goes are needed.", USE);
  if (values.has("--server") && (server === undefined || to !== "postgresql" || values.has("--url")))
    throw new Refusal("A server is named for a shop that stays on PostgreSQL, and without --url.", USE);
  const url = values.get("--url") ?? postgresUrl();
  if (!url) throw new Refusal("Which PostgreSQL server?", `Name it by --url or DATABASE_URL. ${USE}`);
  if (server !== undefined) demandAddress(serverTyped(server));
  return {
    move: { slug, to, url },
    server: server === undefined ? undefined : serverTyped(server),
    remove: rest.includes("--remove-source"),
  };
}

/** A shop that stays on PostgreSQL, from one server to another. */
async function betweenServers(move: ServerMove, remove: boolean): Promise<void> {
  const { slug, server } = move;
  if (remove) {
    const left = await removeLeft(move);
    say(`${slug}: what was left on ${left.map(serverSaid).join(", ")} is erased.`);
    return;
  }
  const { rows, from } = await moveToServer(move, new Date());
  say(
    `${slug}: ${rows} rows are on ${serverSaid(server)} now, equal table by table, and its books add up. Its pictures stay where they are.`,
  );
  say(
    `Its schema on ${serverSaid(from)} is entered by nobody any more, and nothing was removed. Once all is well: the same command with --remove-source.`,
  );
}

/** The command: one shop moved between the kinds of database, or between servers. */
await command(async () => {
  const { move, server, remove } = asked(process.argv.slice(2));
  // No server may be on the data folder; the shop is closed before anything is read, so that a later start changes nothing of it.
  takeDataFolderAlone().release();
  if (server !== undefined) {
    await betweenServers({ slug: move.slug, server }, remove);
    return 0;
  }
  if (remove) {
    await removeSource(move, new Date());
    say(`${move.slug}: what was left in its old place is erased.`);
    return 0;
  }
  const { rows, pictures } = await moveShop(move, new Date());
  say(
    `${move.slug}: ${rows} rows and ${pictures} pictures are in ${move.to} now, equal table by table, and its books add up.`,
  );
  say(
    "In its old place it is closed and nothing was removed. Once all is well: the same command with --remove-source.",
  );
  return 0;
});
