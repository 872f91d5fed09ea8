import { existsSync, mkdirSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { directoryFile } from "@/lib/db/directory";
import { dataFolder, postgresUrl } from "@/lib/db/folders";
import { takeDataFolderAlone } from "@/lib/db/inUse";
import { Refusal } from "@/lib/domain/refusal";
import { say } from "@/lib/log/say";
import { photoBucket } from "@/lib/outside/photoStore";
import { asOneFile, damageOf } from "./backup/copyDatabase";
import { command } from "./command";
import { type Asked, asked, demandAsked, demandFit } from "./restore/asked";
import { carryErased } from "./restore/erased";
import { carryOut, putInPlace, unfinishedRestore } from "./restore/exchange";
import { givePictures, storeOf } from "./restore/pictures";
import { restoreSchemas } from "./restore/postgres/restoreSchemas";
import {
  booksOf,
  forgetLooks,
  type ShopRow,
  type Staged,
  shopNames,
  shopsIn,
  stageDirectory,
  stageShop,
} from "./restore/stage";

async function restore(): Promise<number> {
  const wanted = asked(process.argv.slice(2));
  const url = postgresUrl();
  if (url) return restoreSchemas(url, demandAsked(wanted));
  const lock = takeDataFolderAlone();
  try {
    const cutOff = unfinishedRestore();
    if (cutOff) {
      carryOut(cutOff);
      say(`A restore that had been cut off is finished. What it replaced is in ${cutOff.replaced}.`);
    }
    if (wanted) return await putBack(wanted);
    if (!cutOff) demandAsked(wanted);
    return 0;
  } finally {
    lock.release();
  }
}

async function putBack(wanted: Asked): Promise<number> {
  const making = join(dataFolder(), "restore-in-the-making");
  rmSync(making, { recursive: true, force: true });
  mkdirSync(making, { recursive: true });
  try {
    await stageDirectory(wanted.copy, making);
    carryErased(directoryFile(), join(making, "directory.sqlite"));
    const shops = await chosen(wanted, join(making, "directory.sqlite"));
    const staged: Staged[] = [];
    for (const shop of shops) {
      const one = await stageShop(wanted.copy, making, shop);
      say(
        `${one.slug}: ${one.damage ?? (one.problems.length ? one.problems.join(" ") : "whole, and its books add up")}`,
      );
      staged.push(one);
    }
    demandFit(staged, wanted);
    const fit = staged.filter((shop) => shop.damage === null);
    const replaced = join(dataFolder(), "replaced", new Date().toISOString().replace(/[:.]/g, "-"));
    if (photoBucket()) for (const { database } of fit) await givePictures(wanted.copy, database);
    // Before the moves: a restore that is cut off is carried on without this.
    if (wanted.slug !== null) for (const { id } of fit) forgetLooks(directoryFile(), id);
    putInPlace({ replaced, making, ...movesOf(wanted, making, fit, staged) });
    return await lookedAt(fit, replaced, staged.length - fit.length);
  } finally {
    if (!unfinishedRestore()) rmSync(making, { recursive: true, force: true });
  }
}

/** The shops to put back: all that the copy knows, or the one asked for, where both directories mean the same by it. */
async function chosen({ copy, slug }: Asked, theirs: string): Promise<ShopRow[]> {
  const all = await shopsIn(theirs);
  if (slug === null) return all;
  const wanted = all.find((shop) => shop.slug === slug);
  if (!wanted)
    throw new Refusal(
      `The copy in ${copy} knows no shop “${slug}”.`,
      `It knows ${all.map((shop) => shop.slug).join(", ") || "none"}. Nothing was changed.`,
    );
  const whole = "Restore everything (without --shop), or take an earlier copy. Nothing was changed.";
  const damage = damageOf(directoryFile());
  if (damage) throw new Refusal(`The directory of this data folder cannot be read. ${damage}`, whole);
  const ours = (await shopsIn(directoryFile())).find((shop) => shop.id === wanted.id);
  if (ours?.database !== wanted.database)
    throw new Refusal(`This data folder does not know the shop “${slug}” that the copy holds.`, whole);
  return [wanted];
}

/** With everything restored, what the copy does not know goes as well; what it holds damaged stays as it stands. */
function movesOf({ slug }: Asked, making: string, fit: readonly Staged[], staged: readonly Staged[]) {
  const shops = fit.flatMap(({ database }) => shopNames(database));
  const ready = shops.filter((name) => existsSync(join(making, name)));
  const gone = shops.filter((name) => !ready.includes(name));
  if (slug !== null) return { comes: ready, goes: gone };
  const known = new Set(staged.map((shop) => shop.database));
  const strange = [
    ...namesIn("shops")
      .filter((name) => name.endsWith(".sqlite") && !known.has(name.slice(0, -7)))
      .map((name) => `shops/${name}`),
    ...namesIn("files")
      .filter((name) => !known.has(name))
      .map((name) => `files/${name}`),
  ];
  // The directory goes last: until then the old one still fits what is there.
  return { comes: [...ready, "directory.sqlite"], goes: [...gone, ...strange] };
}

function namesIn(folder: string): string[] {
  const path = join(dataFolder(), folder);
  return existsSync(path) ? readdirSync(path) : [];
}

/** Looks once more at what now lies in its place. */
async function lookedAt(shops: readonly Staged[], replaced: string, left: number): Promise<number> {
  let wrong = 0;
  for (const { slug, database } of shops) {
    const file = join(dataFolder(), shopNames(database)[0]);
    const problems = await booksOf(file, slug, storeOf(database));
    asOneFile(file);
    wrong += problems.length;
    say(
      `${slug}: put back${problems.length ? `, and these do not hold: ${problems.join(" ")}` : ", opened and checked"}`,
    );
  }
  if (existsSync(replaced)) say(`What was replaced is in ${replaced}. Remove it once all is well.`);
  if (left) say(`Left as they stand: ${left}.`);
  return wrong || left ? 1 : 0;
}

await command(restore);
