import { existsSync } from "node:fs";
import { join } from "node:path";
import { log } from "@/lib/log/log";
import { configuration } from "../configuration/configuration";
import { postgresClient, type ShopClient, sqliteClient } from "./clients";
import type { MigrationTarget } from "./engine";
import { upToDate } from "./firstOpening";
import { dataFolder } from "./folders";
import type { Prisma } from "./generated/sqlite/shop/client";
import { type ServerFault, serverUnknown } from "./serverFaults";
import { addressOf, type ShopPlace, schemaSaid } from "./servers";
import { faultOf, ShopShut, shutShop, sicknessOf } from "./shopFaults";
import { shopsThatFit } from "./shopsThatFit";
import { postgresStore, type Store, sqliteStore } from "./store";

export type ShopReader = ShopClient;
export type ShopTx = Prisma.TransactionClient;
export type ShopStore = Store<ShopClient, ShopTx>;

/** Whoever acts in a shop: one of its people, a customer by link, or the product itself. */
export interface Actor {
  readonly personId: string;
  readonly name: string;
  readonly role: "owner" | "desk" | "tuner" | "books" | "customer" | "system";
  /** The person's row in this shop's Staff; null for customers and the product. */
  readonly staffId: number | null;
}

/** All that lib/data needs of one shop: its database, who acts, and when. */
export interface ShopHandle extends ShopPlace {
  /** The folder of its pictures: for lib/outside/fileStore. */
  readonly files: string;
  readonly read: ShopReader;
  write<T>(run: (tx: ShopTx) => Promise<T>): Promise<T>;
  readonly by: Actor;
  readonly now: Date;
}

const LOOK_MS = 30_000;

interface Opened {
  readonly store: ShopStore;
  usedAt: number;
}

const kept = globalThis as unknown as {
  throttlewrightShops?: Map<string, Opened>;
  throttlewrightIdleShops?: NodeJS.Timeout | undefined;
};
kept.throttlewrightShops ??= new Map();

export function shopFile(database: string): string {
  return join(dataFolder(), "shops", `${database}.sqlite`);
}

/**
 * The database of one shop, from the pool; throws ShopShut where it cannot be opened. Its place is what the directory says, never a
 * request's words.
 */
export function shopStore(place: ShopPlace): ShopStore {
  const { database } = place;
  if (!/^[a-z0-9_]+$/.test(database)) throw new Error("Not a database name.");
  if (faultOf(database)) throw new ShopShut();
  const shops = kept.throttlewrightShops as Map<string, Opened>;
  const found = shops.get(database);
  const opened = found ?? { store: open(place), usedAt: 0 };
  opened.usedAt = performance.now();
  // Deleting and setting again keeps the map in order of use.
  shops.delete(database);
  shops.set(database, opened);
  if (!found) {
    closeSurplus(shops);
    watchIdle();
  }
  return opened.store;
}

export function isShopOpen(database: string): boolean {
  return kept.throttlewrightShops?.has(database) ?? false;
}

export function openShopCount(): number {
  return kept.throttlewrightShops?.size ?? 0;
}

export async function closeShops(): Promise<void> {
  const shops = kept.throttlewrightShops as Map<string, Opened>;
  const all = [...shops.values()];
  shops.clear();
  for (const opened of all) await opened.store.close();
}

/** Closes a shop that nobody asked for after `since`, a moment of performance.now(). */
export async function closeUnlessUsed(database: string, since: number): Promise<void> {
  const opened = kept.throttlewrightShops?.get(database);
  if (opened && opened.usedAt <= since && !opened.store.busy()) await closeShop(database);
}

/** One shop closed at once: before its file is moved, restored or erased. */
export async function closeShop(database: string): Promise<void> {
  const opened = kept.throttlewrightShops?.get(database);
  kept.throttlewrightShops?.delete(database);
  await opened?.store.close();
}

/**
 * Shops beyond SHOPS_OPEN are closed, least recently used first; those used within the last seconds only beyond twice as many.
 * A client closed under a slow request opens itself again, so closing is never a fault, only a cost.
 */
function closeSurplus(shops: Map<string, Opened>): void {
  const { SHOPS_OPEN: most = shopsThatFit(), SHOPS_QUIET_MS: quietMs } = configuration();
  for (const [database, opened] of shops) {
    if (shops.size <= most) return;
    const quiet = performance.now() - opened.usedAt >= quietMs;
    if (!opened.store.busy() && (quiet || shops.size > 2 * most)) closeBehind(database, opened);
  }
}

/** Closes what nobody has used for SHOPS_IDLE_MS. */
export function closeIdleShops(now = performance.now()): void {
  const { SHOPS_IDLE_MS: idleMs } = configuration();
  for (const [database, opened] of kept.throttlewrightShops ?? [])
    if (!opened.store.busy() && now - opened.usedAt >= idleMs) closeBehind(database, opened);
}

/** Looks for idle shops as long as any is open; keeps no process from ending. */
function watchIdle(): void {
  kept.throttlewrightIdleShops ??= setInterval(() => {
    closeIdleShops();
    if (openShopCount() > 0) return;
    clearInterval(kept.throttlewrightIdleShops);
    kept.throttlewrightIdleShops = undefined;
  }, LOOK_MS).unref();
}

/** Takes a shop out of the pool; whoever asked for another one does not wait for it. */
function closeBehind(database: string, opened: Opened): void {
  kept.throttlewrightShops?.delete(database);
  opened.store
    .close()
    .catch((cause: unknown) => log().error({ database, err: cause }, "Closing a shop's database failed."));
}

function open(shop: ShopPlace): ShopStore {
  const { slug, database, server } = shop;
  const address = addressOf(server);
  const ready = (where: MigrationTarget) => () => upToDate(shop, where, shut);
  if (address) {
    const schema = ready({ provider: "postgresql", url: address.direct, schema: database });
    return postgresStore<ShopClient, ShopTx>(
      postgresClient("shop", server, database, "read", schema),
      postgresClient("shop", server, database, "write", schema),
      // LOCK TABLE takes no snapshot, so what the transaction sees begins after its turn has come; no other
      // table would do as well, since this one is never vacuumed or read by requests.
      (tx) =>
        tx.$executeRawUnsafe(`LOCK TABLE "${database}"."_prisma_migrations" IN SHARE ROW EXCLUSIVE MODE`),
    );
  }
  if (server !== "") {
    shutFor(shop, serverUnknown(server));
    throw new ShopShut();
  }
  const place = shopFile(database);
  const failed = (cause: unknown) => {
    const sick = sicknessOf(cause);
    if (sick) shut({ slug, database, place, ...sick });
  };
  if (!existsSync(place)) {
    // The writer would make an empty one.
    failed(Object.assign(new Error("The file is not there."), { code: "ENOENT" }));
    throw new ShopShut();
  }
  const file = ready({ provider: "sqlite", file: place });
  const writer = sqliteClient("shop", place, false, failed, file);
  const reader = sqliteClient("shop", place, true, failed, file);
  return sqliteStore<ShopClient, ShopTx>(reader, writer);
}

/** Shuts a shop for what is wrong with its server. */
export function shutFor(shop: ShopPlace, fault: ServerFault): void {
  const { slug, database } = shop;
  // Said again and again, it would never be time to try again.
  if (faultOf(database)?.reason === fault.reason) return;
  shut({ slug, database, place: schemaSaid(shop), ...fault });
}

/** Shuts a shop whose database shows itself damaged or not to be opened: its connections close once nobody is in them. */
export function shut(fault: Parameters<typeof shutShop>[0]): void {
  shutShop(fault);
  closeShop(fault.database).catch((cause: unknown) =>
    log().warn({ database: fault.database, err: cause }, "Closing a shop that is shut failed."),
  );
}
