import { randomBytes, randomUUID } from "node:crypto";
import { type DirectoryTx, directory } from "@/lib/db/directory";
import { dropShopDatabase } from "@/lib/db/dropShop";
import { demandOne } from "@/lib/db/guard";
import { newestLevel } from "@/lib/db/levels";
import { createShopDatabase } from "@/lib/db/migrate";
import { serverFault } from "@/lib/db/serverFaults";
import { type DatabasePlace, newShopsOn, type ShopPlace, serverNames } from "@/lib/db/servers";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import { addPerson, demandFree, type ReadyPerson } from "./signUp";

/** More than anybody is shown at once, whatever is allowed. */
const MOST_SHOPS = 1000;

export interface OpenedShop extends ShopPlace {
  readonly id: string;
}

export interface ShopToOpen {
  readonly name: string;
  /** Somebody of the directory, or a person who comes into it with the shop. */
  readonly owner: { readonly id: string } | ReadyPerson;
  readonly slug?: string;
  /** The sample shop that its owner asked for: it counts among no shops, and is not made without being asked for. */
  readonly sample?: boolean;
  /** As many as the owner may have. */
  readonly most?: number;
  /** `prepare` makes the database too: it is not to be an empty one of this version. */
  readonly ownDatabase?: true;
  /** Fills the empty database, before anybody can enter it. Its name in addresses is decided later: the database's stands in. */
  readonly prepare: (place: ShopPlace) => Promise<unknown>;
}

/**
 * Opens a shop, and makes its owner where they are new: one act. The database is noted, made and filled first; then shop,
 * owner and membership enter the directory in one transaction. A stop anywhere leaves no shop that does not open and no
 * address that is taken, so the same request can be made again; `sweepUnfinished` clears away what it left.
 */
export async function createShop(wanted: ShopToOpen, now: Date): Promise<OpenedShop> {
  const { name, owner } = wanted;
  const most = Math.min(wanted.most ?? MOST_SHOPS, MOST_SHOPS);
  // Asked before the database is made, and once more where it counts.
  if ("email" in owner) await demandFree(directory().read, owner.email);
  if (!wanted.sample) await demandRoomForShop(directory().read, owner.id, most);
  const server = await demandNewShopsOn();
  const database = `shop_${randomBytes(8).toString("hex")}`;
  const place = { slug: database, database, server };
  await directory().write((tx) =>
    tx.shopInMaking.create({ data: { database, server, startedAt: now }, select: { database: true } }),
  );
  try {
    if (!wanted.ownDatabase) await createShopDatabase(place);
    await wanted.prepare(place);
    return await directory().write(async (tx) => {
      if ("email" in owner) await addPerson(tx, owner, now);
      if (!wanted.sample) await demandRoomForShop(tx, owner.id, most);
      await demandStillInMaking(tx, database, now);
      const slug = await freeSlug(tx, slugOf(wanted.slug ?? name));
      const id = randomUUID();
      await tx.shop.create({
        data: {
          id,
          slug,
          name,
          database,
          server,
          createdAt: now,
          openedBy: owner.id,
          sample: wanted.sample ?? false,
          level: newestLevel(),
        },
        select: { id: true },
      });
      if (wanted.sample)
        await demandOne(
          tx.sampleShop.updateMany({
            where: { personId: owner.id, shopId: null },
            data: { shopId: id, madeBy: null },
          }),
          () => new Refusal("Nobody waits for this sample shop any more.", "Nothing was opened."),
        );
      await tx.membership.create({
        data: { personId: owner.id, shopId: id, role: "owner", createdAt: now },
        select: { id: true },
      });
      await tx.securityEvent.create({
        data: { at: now, act: "opened a shop", personId: owner.id, shopId: id },
      });
      return { id, slug, database, server };
    });
  } catch (cause) {
    // Where clearing away fails too, the sweep does it later: the first failure is the one to tell.
    await clearAwayShop(place).catch(() => undefined);
    throw cause;
  }
}

/** The server that new shops go to; refused while it does not answer, with nothing begun. */
async function demandNewShopsOn(): Promise<string> {
  const server = newShopsOn();
  if (await serverFault(server))
    throw new Refusal(
      "No shop can be opened just now. Nothing was opened.",
      "Try again in a few minutes.",
      {},
      "busy",
    );
  return server;
}

/** The note is this act's as long as nobody claimed it: with the shop it goes. */
async function demandStillInMaking(tx: DirectoryTx, database: string, startedAt: Date): Promise<void> {
  await demandOne(
    tx.shopInMaking.deleteMany({ where: { database, startedAt } }),
    () => new Refusal("Opening the shop took too long. Nothing was opened.", "Try once more."),
  );
}

const UNFINISHED_MS = 3_600_000;

/** Clears away what stops left of shops that were being made. Answers how many; what fails is told of, and tried again later. */
export async function sweepUnfinished(
  now: Date,
  failed: (database: string, cause: unknown) => void = () => undefined,
): Promise<number> {
  const left = await directory().read.shopInMaking.findMany({
    where: { startedAt: { lt: new Date(now.getTime() - UNFINISHED_MS) }, server: { in: await answering() } },
    select: { database: true, server: true },
    orderBy: { database: "asc" },
    take: 100,
  });
  let cleared = 0;
  for (const place of left)
    try {
      await clearAwayShop(place);
      cleared += 1;
    } catch (cause) {
      failed(place.database, cause);
    }
  return cleared;
}

/** The servers that can be used now: what is left on another one waits. */
async function answering(): Promise<string[]> {
  const servers: string[] = [""];
  for (const server of serverNames()) if (server !== "" && !(await serverFault(server))) servers.push(server);
  return servers;
}

const CLAIMED = new Date(0);

/**
 * The note is claimed, so that no shop enters the directory with this database any more; then the database goes, then the
 * note. A stop in between only means that it is cleared away later. A note that is gone went with its shop.
 */
export async function clearAwayShop(place: DatabasePlace): Promise<void> {
  const { database } = place;
  const { count } = await directory().write((tx) =>
    tx.shopInMaking.updateMany({ where: { database }, data: { startedAt: CLAIMED } }),
  );
  if (count !== 1) return;
  await dropShopDatabase(place);
  await directory().write((tx) => tx.shopInMaking.deleteMany({ where: { database } }));
}

/**
 * Clears away a shop that the directory does not know any more. With several servers one of them may be away: what is left there is
 * the sweep's, by the note. Answers whether all is gone.
 */
export async function clearAwayNowOrLater(place: DatabasePlace): Promise<boolean> {
  try {
    await clearAwayShop(place);
    return true;
  } catch (cause) {
    if (cause instanceof Refusal && serverNames().length > 1) return false;
    throw cause;
  }
}

/** Refuses one more shop to a person who opened or owns as many as one may. */
async function demandRoomForShop(
  reader: Pick<DirectoryTx, "shop">,
  ownerId: string,
  most: number,
): Promise<void> {
  const mine = await reader.shop.findMany({
    where: {
      closedAt: null,
      sample: false,
      OR: [{ openedBy: ownerId }, { memberships: { some: { personId: ownerId, role: "owner" } } }],
    },
    select: { id: true },
    orderBy: { id: "asc" },
    take: most,
  });
  if (mine.length >= most)
    throw new Refusal(
      `You have ${mine.length} shops, as many as one person may open here. Nothing was opened.`,
      "Ask whoever runs this server to allow more (SHOPS_PER_PERSON).",
    );
}

function slugOf(name: string): string {
  const plain = searchKey(name)
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 40)
    .replace(/-+$/, "");
  return plain || "shop";
}

async function freeSlug(tx: DirectoryTx, base: string): Promise<string> {
  const rows = await tx.shop.findMany({ where: { slug: { startsWith: base } }, select: { slug: true } });
  const taken = new Set(rows.map((row) => row.slug));
  if (!taken.has(base)) return base;
  let n = 2;
  while (taken.has(`${base}-${n}`)) n++;
  return `${base}-${n}`;
}
