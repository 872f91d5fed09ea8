import { directory } from "@/lib/db/directory";
import type { Prisma } from "@/lib/db/generated/sqlite/directory/client";
import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";

/** A shop's records in one file: asked for, being made, or there to be fetched until it is removed. */
export type ExportState =
  | { readonly state: "none" }
  | { readonly state: "waiting"; readonly done: number; readonly of: number }
  | { readonly state: "failed"; readonly failure: string }
  | {
      readonly state: "ready";
      readonly file: string;
      readonly bytes: number;
      readonly readyAt: Date;
      readonly until: Date;
    };

/** So many of all shops may wait: they are made one after the other. */
const MOST_WAITING = 20;
const KEPT_MS = 86_400_000;
/** Who is making one says so every few seconds; who was stopped loses it after this. */
const HELD_MS = 2 * 60_000;

const UNMADE = { readyAt: null, failure: "" } as const;
const AFRESH = { ...UNMADE, madeBy: null, heldUntil: null, done: 0, of: 0, file: "", bytes: 0 };

const keptUntil = (readyAt: Date) => new Date(readyAt.getTime() + KEPT_MS);

export async function exportOf(shopId: string, now: Date): Promise<ExportState> {
  const row = await directory().read.shopExport.findUnique({ where: { shopId } });
  if (!row) return { state: "none" };
  if (row.failure) return { state: "failed", failure: row.failure };
  if (!row.readyAt) return { state: "waiting", done: row.done, of: row.of };
  const until = keptUntil(row.readyAt);
  if (until <= now) return { state: "none" };
  return { state: "ready", file: row.file, bytes: row.bytes, readyAt: row.readyAt, until };
}

/** Asks for a shop's records. While one waits or is made no other is begun; one that was made is replaced. */
export async function askForExport(shop: ShopHandle, shopId: string): Promise<void> {
  const begun = await directory().write(async (tx) => {
    const row = await tx.shopExport.findUnique({
      where: { shopId },
      select: { readyAt: true, failure: true },
    });
    if (row && !row.readyAt && !row.failure) return false;
    if ((await tx.shopExport.count({ where: UNMADE })) >= MOST_WAITING)
      throw new Refusal(
        "Several shops are being exported just now. Yours was not asked for.",
        "Ask again in a few minutes.",
        {},
        "busy",
      );
    const data = { ...AFRESH, askedBy: shop.by.personId, askedAt: shop.now };
    await tx.shopExport.upsert({
      where: { shopId },
      create: { shopId, ...data },
      update: data,
      select: { shopId: true },
    });
    return true;
  });
  if (begun) await shop.write((tx) => audit(tx, shop, "asked for all records", "shop", null));
}

export interface ExportToMake {
  readonly shopId: string;
  readonly slug: string;
  readonly name: string;
  readonly database: string;
}

/** Takes the export that has waited longest, so that nobody else makes it; null where none waits. */
export async function takeExportToMake(holder: string, now: Date): Promise<ExportToMake | null> {
  const next = await directory().read.shopExport.findFirst({
    where: { ...UNMADE, OR: [{ madeBy: null }, { heldUntil: { lt: now } }] },
    select: {
      shopId: true,
      madeBy: true,
      heldUntil: true,
      shop: { select: { slug: true, name: true, database: true } },
    },
    orderBy: { askedAt: "asc" },
  });
  if (!next) return null;
  const { shopId, madeBy, heldUntil, shop } = next;
  const { count } = await directory().write((tx) =>
    tx.shopExport.updateMany({
      where: { shopId, madeBy, heldUntil, ...UNMADE },
      data: { madeBy: holder, heldUntil: heldTo(now), done: 0, of: 0 },
    }),
  );
  return count === 1 ? { shopId, ...shop } : null;
}

const heldTo = (now: Date) => new Date(now.getTime() + HELD_MS);

/** Says how far it is, and keeps it one's own. Refuses where it is not any more. */
export async function noteExportProgress(
  shopId: string,
  holder: string,
  { done, of }: { done: number; of: number },
  now: Date,
): Promise<void> {
  await noteOurs(shopId, holder, { done, of, heldUntil: heldTo(now) });
}

export async function noteExportReady(
  shopId: string,
  holder: string,
  { file, bytes }: { file: string; bytes: number },
  now: Date,
): Promise<void> {
  await noteOurs(shopId, holder, { readyAt: now, file, bytes, ...HELD_BY_NOBODY });
}

/** Notes that an export could not be made; it may be asked for again. Where somebody else makes it by now, that stands. */
export async function noteExportFailed(shopId: string, holder: string, failure: string): Promise<void> {
  await changeOurs(shopId, holder, { failure: failure.slice(0, 300), ...HELD_BY_NOBODY });
}

const HELD_BY_NOBODY = { madeBy: null, heldUntil: null } as const;

/** Changes an export while this holder makes it. */
const changeOurs = (shopId: string, holder: string, data: Prisma.ShopExportUpdateManyMutationInput) =>
  directory().write((tx) => tx.shopExport.updateMany({ where: { shopId, madeBy: holder, ...UNMADE }, data }));

const noteOurs = (...ours: Parameters<typeof changeOurs>) =>
  demandOne(
    changeOurs(...ours),
    () => new Refusal("Nobody waits for this export any more.", "It was not kept."),
  );

/** Forgets exports whose day is over, and answers the names of the files that stay. */
export async function exportsToKeep(now: Date): Promise<Set<string>> {
  await directory().write((tx) =>
    tx.shopExport.deleteMany({ where: { readyAt: { lt: new Date(now.getTime() - KEPT_MS) } } }),
  );
  const rows = await directory().read.shopExport.findMany({
    where: { file: { not: "" } },
    select: { file: true },
    orderBy: { shopId: "asc" },
  });
  return new Set(rows.map(({ file }) => file));
}

/** Writes down that somebody took the file away. */
export async function noteExportFetched(shop: ShopHandle): Promise<void> {
  await shop.write((tx) => audit(tx, shop, "fetched all records", "shop", null));
}
