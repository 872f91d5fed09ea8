import { postgresUrl } from "@/lib/db/folders";
import { takeDataFolderAlone } from "@/lib/db/inUse";
import { Refusal } from "@/lib/domain/refusal";
import { say } from "@/lib/log/say";
import { command } from "./command";
import { type Move, moveShop, removeSource } from "./moving/moveShop";

const USE =
  "Use: npm run move-shop -- <slug> --to postgresql|sqlite [--url postgresql://…] [--remove-source], with the server stopped";

function asked(words: readonly string[]): Move & { readonly remove: boolean } {
  const after = (name: string) => (words.includes(name) ? words[words.indexOf(name) + 1] : undefined);
  const [to, url] = [after("--to"), after("--url") ?? postgresUrl()];
  const [slug, more] = words.filter(
    (word) => !word.startsWith("--") && word !== to && word !== after("--url"),
  );
  if (!slug || more || (to !== "sqlite" && to !== "postgresql"))
    throw new Refusal("A shop and where it goes are needed.", USE);
  if (!url) throw new Refusal("Which PostgreSQL server?", `Name it by --url or DATABASE_URL. ${USE}`);
  return { slug, to, url, remove: words.includes("--remove-source") };
}

/** The command: one shop moved between the kinds of database. */
await command(async () => {
  const move = asked(process.argv.slice(2));
  // No server may be on the data folder; the shop is closed before anything is read, so that a later start changes nothing of it.
  takeDataFolderAlone().release();
  if (move.remove) {
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
