import { randomBytes, randomUUID } from "node:crypto";
import { type DirectoryTx, directory } from "@/lib/db/directory";
import { createShopDatabase } from "@/lib/db/migrate";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import { demandGoodPassword, hashPassword } from "./passwords";

export interface NewPerson {
  readonly name: string;
  readonly email: string;
  readonly password: string;
}

const TAKEN = "There is a person with this address already.";

/** Makes a person. Refuses a poor password or a taken address. */
export async function createPerson(input: NewPerson, now: Date): Promise<string> {
  demandGoodPassword(input.password, input.email);
  const passwordHash = await hashPassword(input.password);
  return directory().write(async (tx) => {
    if (await tx.person.findUnique({ where: { email: input.email }, select: { id: true } }))
      throw new Refusal(TAKEN, "Sign in instead, or use another address.", { email: "Taken." });
    const person = await tx.person.create({
      data: { id: randomUUID(), email: input.email, name: input.name, passwordHash, createdAt: now },
      select: { id: true },
    });
    await tx.securityEvent.create({ data: { at: now, act: "signed up", personId: person.id } });
    return person.id;
  });
}

/** More than anybody is shown at once, whatever is allowed. */
const MOST_SHOPS = 1000;

export interface OpenedShop {
  readonly id: string;
  readonly slug: string;
  readonly database: string;
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

/** Makes an empty shop database and puts it in the directory with its owner. The caller fills it (prepareShop). */
export async function createShop(
  name: string,
  ownerId: string,
  now: Date,
  slugWanted?: string,
  mostShops = Number.MAX_SAFE_INTEGER,
): Promise<OpenedShop> {
  // Asked before the database is made, and once more where it counts.
  await demandRoomForShop(directory().read, ownerId, Math.min(mostShops, MOST_SHOPS));
  const database = `shop_${randomBytes(8).toString("hex")}`;
  await createShopDatabase(database);
  return directory().write(async (tx) => {
    await demandRoomForShop(tx, ownerId, Math.min(mostShops, MOST_SHOPS));
    const base = slugOf(slugWanted ?? name);
    const taken = await tx.shop.findMany({ where: { slug: { startsWith: base } }, select: { slug: true } });
    const slug = freeSlug(base, new Set(taken.map((s) => s.slug)));
    const id = randomUUID();
    await tx.shop.create({
      data: { id, slug, name, database, createdAt: now, openedBy: ownerId },
      select: { id: true },
    });
    await tx.membership.create({
      data: { personId: ownerId, shopId: id, role: "owner", createdAt: now },
      select: { id: true },
    });
    await tx.securityEvent.create({ data: { at: now, act: "opened a shop", personId: ownerId, shopId: id } });
    return { id, slug, database };
  });
}

function slugOf(name: string): string {
  const plain = searchKey(name)
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 40)
    .replace(/-+$/, "");
  return plain || "shop";
}

function freeSlug(base: string, taken: ReadonlySet<string>): string {
  if (!taken.has(base)) return base;
  let n = 2;
  while (taken.has(`${base}-${n}`)) n++;
  return `${base}-${n}`;
}
