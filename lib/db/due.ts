import { type DirectoryTx, directory } from "./directory";
import type { ShopPlace } from "./servers";

/** The works that others than a shop's own changes make due, by name: what sends mail, and what brings its people in line. */
export const SENDING = "mail";
export const SETTLING_STAFF = "staff";
export const KEEPING_RECORDS = "keeping";
export const ERASING_AGAIN = "erasedAgain";

/** A work as far as the directory knows it. */
export interface KnownWork {
  readonly name: string;
  /** Goes up where the work comes to other answers: it then looks at every shop anew. */
  readonly basis: number;
  /** False: sample shops are left out. */
  readonly inSamples: boolean;
}

export interface DueShop extends ShopPlace {
  readonly id: string;
  /** How the shop stood when it was taken up: see `keepLooks`. */
  readonly changes: number;
  readonly looks: number;
}

/** What a look at a shop has shown. */
export interface Look {
  readonly shop: DueShop;
  readonly work: KnownWork;
  readonly at: Date;
  /** When the work is to look again; null: not before something is changed. */
  readonly next: Date | null;
  /** A work that what was done makes due at once. */
  readonly wakes?: string | undefined;
}

/** What a change of the shop makes due a day after it, not at once. */
const LATER = ["keys", "photos", "search", SETTLING_STAFF, KEEPING_RECORDS, ERASING_AGAIN];
const DAY_MS = 86_400_000;

const dueAfterChange = (work: string, at: Date): Date =>
  LATER.includes(work) ? new Date(at.getTime() + DAY_MS) : at;

/** Shops in which a work is due, by id, after `after`: those whose date has come, and those it has not looked at. */
export async function dueShops(work: KnownWork, now: Date, after: string, take: number): Promise<DueShop[]> {
  const { name, basis } = work;
  const rows = await directory().read.shop.findMany({
    where: {
      closedAt: null,
      id: { gt: after },
      ...(work.inSamples ? {} : { sample: false }),
      OR: [
        { dueWorks: { none: { work: name } } },
        { dueWorks: { some: { work: name, OR: [{ dueAt: { lte: now } }, { basis: { not: basis } }] } } },
      ],
    },
    select: placeWith([name]),
    orderBy: { id: "asc" },
    take,
  });
  return rows.map(({ dueWorks, ...shop }) => ({ ...shop, looks: dueWorks[0]?.looks ?? 0 }));
}

const placeWith = (works: string[]) =>
  ({
    id: true,
    slug: true,
    database: true,
    server: true,
    changes: true,
    dueWorks: {
      where: { work: { in: works } },
      select: { work: true, looks: true },
      orderBy: { work: "asc" },
    },
  }) as const;

/**
 * Keeps what looks have shown. Where something was written in the shop since it was taken up, the look may have come before it: it
 * is due again as after any change. Where somebody else has looked meanwhile, the earlier of both dates counts.
 */
export async function keepLooks(looks: readonly Look[]): Promise<void> {
  if (looks.length === 0) return;
  await directory().write(async (tx) => {
    for (const { shop, work, at, next, wakes } of looks) {
      const now = await tx.shop.findUnique({
        where: { id: shop.id },
        select: { changes: true, dueWorks: { where: { work: work.name } } },
      });
      if (!now) continue;
      const [row] = now.dueWorks;
      const dates = [next];
      if (now.changes !== shop.changes) dates.push(dueAfterChange(work.name, at));
      if (row && row.looks !== shop.looks) dates.push(row.dueAt);
      const kept = { dueAt: earliest(dates), basis: work.basis };
      await tx.dueWork.upsert({
        where: { shopId_work: { shopId: shop.id, work: work.name } },
        create: { shopId: shop.id, work: work.name, looks: 1, ...kept },
        update: { looks: { increment: 1 }, ...kept },
        select: { shopId: true },
      });
      if (wakes) await makeDueIn(tx, shop.id, wakes, at);
    }
  });
}

/** The earliest of some dates, null being never. */
export function earliest(dates: readonly (Date | null)[]): Date | null {
  const times = dates.flatMap((date) => (date ? [date.getTime()] : []));
  return times.length ? new Date(Math.min(...times)) : null;
}

/** Notes that something was written in shops: every work is due in them, at once or a day later, as it is its way. */
export async function noteChangesIn(
  tx: DirectoryTx,
  changed: readonly { readonly database: string; readonly at: Date }[],
): Promise<void> {
  for (const { database, at } of changed) {
    const { count } = await tx.shop.updateMany({ where: { database }, data: { changes: { increment: 1 } } });
    if (count === 0) continue;
    for (const [work, dueAt] of [
      [{ notIn: LATER }, at],
      [{ in: LATER }, new Date(at.getTime() + DAY_MS)],
    ] as const)
      await tx.dueWork.updateMany({
        where: { shop: { database }, work, OR: [{ dueAt: null }, { dueAt: { gt: dueAt } }] },
        data: { dueAt },
      });
  }
}

/** Makes one work due in a shop, for who knows what has come up. A look that is under way does not undo it. */
export async function makeDueIn(tx: DirectoryTx, shopId: string, work: string, dueAt: Date): Promise<void> {
  const row = await tx.dueWork.findUnique({
    where: { shopId_work: { shopId, work } },
    select: { dueAt: true },
  });
  await tx.dueWork.upsert({
    where: { shopId_work: { shopId, work } },
    // No work has this basis: a shop it has not looked at stays due.
    create: { shopId, work, dueAt, looks: 1, basis: 0 },
    update: { dueAt: earliest([row?.dueAt ?? null, dueAt]), looks: { increment: 1 } },
    select: { shopId: true },
  });
}

/** What failed, or was cut off, is looked at again after this. */
const AGAIN_MS = 3_600_000;

/** A shop that all works look at, with how often each has looked. */
export interface ShopToLookAt extends Omit<DueShop, "looks"> {
  readonly sample: boolean;
  readonly looked: ReadonlyMap<string, number>;
}

/**
 * Takes shops that were not looked at for a day, the longest first, so that no other process takes them too. Each stays taken for an
 * hour, or until `keepLookedAt`.
 */
export async function takeLongUnseen(now: Date, works: string[], most: number): Promise<ShopToLookAt[]> {
  const unseen = { OR: [{ lookedAt: null }, { lookedAt: { lte: new Date(now.getTime() - DAY_MS) } }] };
  const rows = await directory().read.shop.findMany({
    where: { closedAt: null, ...unseen },
    select: { ...placeWith(works), sample: true },
    orderBy: [{ lookedAt: { sort: "asc", nulls: "first" } }, { id: "asc" }],
    take: most,
  });
  const taken: ShopToLookAt[] = [];
  for (const { dueWorks, ...shop } of rows) {
    const { count } = await directory().write((tx) =>
      tx.shop.updateMany({
        where: { id: shop.id, ...unseen },
        data: { lookedAt: new Date(now.getTime() - DAY_MS + AGAIN_MS) },
      }),
    );
    if (count === 1) taken.push({ ...shop, looked: new Map(dueWorks.map((row) => [row.work, row.looks])) });
  }
  return taken;
}

export async function keepLookedAt(shopId: string, at: Date): Promise<void> {
  await directory().write((tx) => tx.shop.updateMany({ where: { id: shopId }, data: { lookedAt: at } }));
}
