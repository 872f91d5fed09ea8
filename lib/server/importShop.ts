import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { Refusal } from "@/lib/domain/refusal";
import { say } from "@/lib/log/say";
import { command } from "./command";
import { importShop } from "./moving/importShop";

const USE = "Use: npm run import-shop -- <file.zip> <new-name> --owner name@example.net";

/** The command: a new shop from what export-shop wrote, also while the server runs. */
await command(async () => {
  const words = process.argv.slice(2);
  const at = words.indexOf("--owner");
  const owner = at === -1 ? undefined : words[at + 1];
  const [named, slug, more] = words.filter((_, n) => at === -1 || (n !== at && n !== at + 1));
  if (!named || !slug || !owner || more) throw new Refusal("A file, a name and an owner are needed.", USE);
  const file = resolve(named);
  if (!existsSync(file)) throw new Refusal(`There is no file ${file}.`, USE);
  const made = await importShop(file, { slug, owner }, new Date());
  say(
    `${made.slug}: ${made.rows} rows and ${made.pictures} pictures, equal to the file, and its books add up.`,
  );
  say(`${owner} is its owner; the others of its people are to be invited again (Shop > People).`);
  const { mails, links, calendars, letters } = made.quiet;
  if (mails) say(`${mails} mails that waited are held back: its owner can let them go under Shop > Mail.`);
  if (links || calendars)
    say(
      `${links} links of customers and ${calendars} calendar addresses open nothing here; new ones can be made.`,
    );
  if (letters)
    say("Letters that the server wrote by itself are off (Shop > Letters, Reminders and Settings).");
  return 0;
});
