import { directory } from "@/lib/db/directory";
import { Refusal } from "@/lib/domain/refusal";
import { say } from "@/lib/log/say";
import { command } from "./command";
import { eraseWhole } from "./moving/eraseRound";

const USE = 'Use: npm run erase-shop -- <slug> --name "<the name of the shop>"';

/** The command: one shop erased at once and for good. */
await command(async () => {
  const words = process.argv.slice(2);
  const at = words.indexOf("--name");
  const name = at === -1 ? undefined : words[at + 1];
  const [slug, more] = words.filter((_, n) => at === -1 || (n !== at && n !== at + 1));
  if (!slug || more) throw new Refusal("A shop is needed.", USE);
  const shop = await directory().read.shop.findUnique({ where: { slug }, select: { id: true, name: true } });
  if (!shop) throw new Refusal(`There is no shop “${slug}” here.`, USE);
  if (name !== shop.name)
    throw new Refusal(
      `To erase it for good, give its name too: --name "${shop.name}".`,
      "Nothing was erased.",
    );
  const wholly = await eraseWhole(shop.id, new Date());
  say(`${slug} is erased: its records, its pictures and who belonged to it. People keep their accounts.`);
  if (!wholly)
    say(
      "A database server is away: what it has of the shop is cleared away by the server's rounds once it answers.",
    );
  say("Backups and exports that were made before still hold it: backups go as they age.");
  return 0;
});
