import { randomBytes } from "node:crypto";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { clearAwayShop } from "@/lib/data/people/createShop";
import { directory } from "@/lib/db/directory";
import { dataFolder } from "@/lib/db/folders";
import { demandOne } from "@/lib/db/guard";
import { migrateAll } from "@/lib/db/migrate";
import { newShopsOn } from "@/lib/db/servers";
import { Refusal } from "@/lib/domain/refusal";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { photoStore } from "@/lib/outside/photoStore";
import { type Brought, bringIn } from "./bringIn";
import { problemsIn } from "./checked";
import { eraseWhole } from "./eraseRound";
import { exportShop } from "./exportShop";
import { carryRowsIn, type DirectoryRows, demandRoom, directoryRowsOf } from "./people";
import { type Kind, otherKind, workOn } from "./places";
import { openArchive } from "./zipIn";

export interface Move {
  readonly slug: string;
  readonly to: Kind;
  /** The PostgreSQL server, wherever the shop goes. */
  readonly url: string;
}

/**
 * Moves a shop between the data folder's SQLite files and a PostgreSQL server: its records, its pictures and its people with what they
 * sign in by. Its books are checked on both sides and every table is compared. In its old place it is closed and nothing is removed;
 * where anything fails it is open there again and nothing is left in the new one.
 */
export async function moveShop(move: Move, now: Date): Promise<Omit<Brought, "shop">> {
  const { slug, to, url } = move;
  const from = otherKind(to);
  await workOn(from, url);
  const rows = await demandShop(slug);
  if (rows.closedAt)
    throw new Refusal(`The shop “${slug}” is closed here.`, "It may have been moved before.");
  await workOn(to, url);
  await migrateAll();
  await demandRoom(rows);
  await workOn(from, url);
  await setClosed(rows.id, now);
  const file = join(dataFolder(), `moving-${randomBytes(8).toString("hex")}.zip`);
  try {
    const shop = handleFor(rows, SYSTEM, now);
    const problems = await problemsIn(shop, photoStore(shop), false);
    if (problems.length)
      throw new Refusal(`Its books do not add up: ${problems.slice(0, 5).join(" ")}`, "Nothing was moved.");
    await exportShop(rows, file, now);
    await workOn(to, url);
    return await settle(file, rows, now);
  } catch (cause) {
    await workOn(from, url);
    await setClosed(rows.id, null);
    throw cause;
  } finally {
    rmSync(file, { force: true });
  }
}

async function settle(file: string, rows: DirectoryRows, now: Date): Promise<Omit<Brought, "shop">> {
  const { slug } = rows;
  const place = { slug, database: `shop_${randomBytes(8).toString("hex")}`, server: newShopsOn() };
  const { database, server } = place;
  const archive = await openArchive(file);
  await directory().write((tx) =>
    tx.shopInMaking.create({ data: { database, server, startedAt: now }, select: { database: true } }),
  );
  try {
    const { shop: _, ...brought } = await bringIn(archive, place, now);
    await directory().write(async (tx) => {
      await carryRowsIn(tx, rows, place);
      await demandOne(
        tx.shopInMaking.deleteMany({ where: { database, startedAt: now } }),
        () =>
          new Refusal(
            "Moving the shop took too long.",
            "Nothing was moved. Stop the server, then try once more.",
          ),
      );
    });
    return brought;
  } catch (cause) {
    await clearAwayShop(place);
    throw cause;
  } finally {
    archive.close();
  }
}

/** Erases what was left in the old place, once the shop stands in the new one. */
export async function removeSource({ slug, to, url }: Move, now: Date): Promise<void> {
  await workOn(to, url);
  const there = await demandShop(slug);
  await workOn(otherKind(to), url);
  const here = await demandShop(slug);
  if (here.id !== there.id || !here.closedAt)
    throw new Refusal(`The shop “${slug}” was not moved from here.`, "Nothing was removed.");
  await eraseWhole(here.id, now);
}

async function demandShop(slug: string): Promise<DirectoryRows> {
  const rows = await directoryRowsOf(slug);
  if (rows) return rows;
  throw new Refusal(`There is no shop “${slug}” there.`, "Nothing was moved or removed.");
}

/** A closed shop is entered by nobody and no round goes through it. */
async function setClosed(id: string, closedAt: Date | null): Promise<void> {
  await directory().write((tx) =>
    tx.shop.update({ where: { id }, data: { closedAt }, select: { id: true } }),
  );
}
