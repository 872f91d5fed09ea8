import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { directory } from "@/lib/db/directory";
import { Refusal } from "@/lib/domain/refusal";
import { say } from "@/lib/log/say";
import { command } from "./command";
import { exportShop } from "./moving/exportShop";

const USE = "Use: npm run export-shop -- <slug> <file.zip>";

/** The command: all records of one shop in one file, also while the server runs. */
await command(async () => {
  const [slug, named, more] = process.argv.slice(2);
  if (!slug || !named || more) throw new Refusal("A shop and a file are needed.", USE);
  const file = resolve(named);
  if (existsSync(file))
    throw new Refusal(`The file ${file} is there already.`, "Name one that is not. Nothing was written.");
  const shop = await directory().read.shop.findUnique({
    where: { slug },
    select: { slug: true, name: true, database: true, server: true },
  });
  if (!shop) throw new Refusal(`There is no shop “${slug}” here.`, USE);
  const { tables, files, missingPhotos } = await exportShop(shop, file, new Date());
  const rows = Object.values(tables).reduce((sum, table) => sum + table.rows, 0);
  const photos = files.filter(({ name }) => name.startsWith("photos/")).length;
  say(`${slug}: ${rows} rows of ${Object.keys(tables).length} tables and ${photos} pictures in ${file}.`);
  if (missingPhotos.length) say(`${missingPhotos.length} pictures that the rows name are not in the store.`);
  return missingPhotos.length ? 1 : 0;
});
