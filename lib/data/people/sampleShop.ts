import { directory } from "@/lib/db/directory";
import { Refusal } from "@/lib/domain/refusal";
import { clearAwayNowOrLater } from "./createShop";

/** A person's sample shop: asked for, made, or not to be made just now. */
export type SampleState =
  | { readonly state: "none" }
  | { readonly state: "waiting" }
  | { readonly state: "failed"; readonly failure: string }
  | { readonly state: "made"; readonly slug: string; readonly name: string };

/** So many may wait to be made: they are made one after the other. */
const MOST_WAITING = 10;

const WAITING = { shopId: null, failure: "" } as const;

export async function sampleOf(personId: string): Promise<SampleState> {
  const row = await directory().read.sampleShop.findUnique({
    where: { personId },
    select: { shopId: true, failure: true },
  });
  if (!row) return { state: "none" };
  if (row.failure) return { state: "failed", failure: row.failure };
  if (row.shopId === null) return { state: "waiting" };
  const shop = await directory().read.shop.findUnique({
    where: { id: row.shopId },
    select: { slug: true, name: true },
  });
  return shop ? { state: "made", ...shop } : { state: "none" };
}

/** Asks for a sample shop. A person has one: asking again while it waits, or once it is there, asks for no other. */
export async function askForSample(personId: string, now: Date): Promise<void> {
  await directory().write(async (tx) => {
    const row = await tx.sampleShop.findUnique({
      where: { personId },
      select: { shopId: true, failure: true },
    });
    if (row && !row.failure) return;
    const waiting = await tx.sampleShop.count({ where: WAITING });
    if (waiting >= MOST_WAITING)
      throw new Refusal(
        "Several sample shops are being made just now. Yours was not asked for.",
        "Ask again in a few minutes.",
        {},
        "busy",
      );
    const data = { ...WAITING, askedAt: now, madeBy: null };
    await tx.sampleShop.upsert({
      where: { personId },
      create: { personId, ...data },
      update: data,
      select: { personId: true },
    });
    await tx.securityEvent.create({ data: { at: now, act: "asked for a sample shop", personId } });
  });
}

/** Longer than any takes to be made: whoever was at it was stopped. */
const GIVEN_UP_MS = 10 * 60_000;

/** Takes the sample shop that has waited longest, so that nobody else makes it; null where none waits. */
export async function takeSampleToMake(holder: string, now: Date): Promise<string | null> {
  const next = await directory().read.sampleShop.findFirst({
    where: {
      ...WAITING,
      OR: [{ madeBy: null }, { askedAt: { lt: new Date(now.getTime() - GIVEN_UP_MS) } }],
    },
    select: { personId: true, askedAt: true },
    orderBy: { askedAt: "asc" },
  });
  if (!next) return null;
  const { count } = await directory().write((tx) =>
    tx.sampleShop.updateMany({ where: { ...next, ...WAITING }, data: { madeBy: holder, askedAt: now } }),
  );
  return count === 1 ? next.personId : null;
}

/** Notes that a sample shop could not be made; it may be asked for again. */
export async function noteSampleFailed(personId: string, failure: string): Promise<void> {
  await directory().write((tx) =>
    tx.sampleShop.updateMany({ where: { personId, shopId: null }, data: { failure, madeBy: null } }),
  );
}

/** Removes a person's sample shop for good, its database and files too. A real shop is never touched by it. */
export async function removeSample(personId: string, now: Date): Promise<void> {
  const gone = await directory().write(async (tx) => {
    const row = await tx.sampleShop.findUnique({
      where: { personId },
      select: { shopId: true, madeBy: true, failure: true },
    });
    if (row && row.shopId === null && row.madeBy && !row.failure)
      throw new Refusal(
        "Your sample shop is just being made.",
        "Remove it once it is there.",
        {},
        "conflict",
      );
    await tx.sampleShop.deleteMany({ where: { personId } });
    const shop = row?.shopId
      ? await tx.shop.findFirst({
          where: { id: row.shopId, sample: true },
          select: { id: true, database: true, server: true },
          orderBy: { id: "asc" },
        })
      : null;
    if (!shop) return null;
    // Noted before it goes from the directory: a stop in between leaves it to the sweep.
    const { database, server } = shop;
    await tx.shopInMaking.create({
      data: { database, server, startedAt: now },
      select: { database: true },
    });
    await tx.shop.delete({ where: { id: shop.id }, select: { id: true } });
    await tx.securityEvent.create({
      data: { at: now, act: "removed the sample shop", personId, shopId: shop.id },
    });
    return { database, server };
  });
  if (gone) await clearAwayNowOrLater(gone);
}
