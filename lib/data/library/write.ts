import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { LibraryEntry } from "@/lib/domain/library/entry";
import { familyName, placeName } from "@/lib/domain/library/places";
import { STARTING_LIBRARY } from "@/lib/domain/library/starting/starting";
import { freshKey } from "@/lib/domain/packages/withItem";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import { MOST_ENTRIES } from "@/lib/schemas/library";
import type { EntryForm, EntrySaid } from "@/lib/schemas/libraryForms";
import { entryPrint } from "./stored";

const columns = (entry: LibraryEntry) => ({
  name: entry.name,
  place: entry.place,
  families: entry.families.length > 0 ? `,${entry.families.join(",")},` : "",
  data: entry as unknown as Prisma.InputJsonObject,
  print: entryPrint(entry),
  searchKey: searchKey(entry.name, placeName(entry.place), ...entry.families.map(familyName)),
});

/** Adds entries that the library has none of the same key for; answers how many. */
export async function addEntriesIn(
  tx: ShopTx,
  shop: ShopHandle,
  entries: readonly LibraryEntry[],
): Promise<number> {
  const rows = await tx.libraryEntry.findMany({
    select: { key: true },
    orderBy: { id: "asc" },
    take: MOST_ENTRIES,
  });
  const there = new Set(rows.map(({ key }) => key));
  const fresh = entries.filter((entry, at) => {
    const first = entries.findIndex(({ key }) => key === entry.key) === at;
    return first && !there.has(entry.key);
  });
  demandRoom(rows.length + fresh.length);
  for (const entry of fresh) await createIn(tx, shop, entry);
  if (fresh.length > 0)
    await audit(tx, shop, "took entries over", "library", 1, {
      entries: fresh.map(({ key }) => key).slice(0, 100),
    });
  return fresh.length;
}

function demandRoom(entries: number): void {
  if (entries > MOST_ENTRIES)
    throw new Refusal(
      `The library would have ${entries} entries; ${MOST_ENTRIES} is the most.`,
      "Leave some out.",
    );
}

async function createIn(tx: ShopTx, shop: ShopHandle, entry: LibraryEntry): Promise<number> {
  const { id } = await tx.libraryEntry.create({
    data: { key: entry.key, kind: entry.kind, ...columns(entry) },
    select: { id: true },
  });
  await editionIn(tx, shop, id, entry);
  return id;
}

/** Keeps a text for good; one that it had before is there already. */
async function editionIn(tx: ShopTx, shop: ShopHandle, entryId: number, entry: LibraryEntry): Promise<void> {
  const { data, print } = columns(entry);
  const before = await tx.libraryEdition.findUnique({
    where: { entryId_print: { entryId, print } },
    select: { id: true },
  });
  if (before) return;
  await tx.libraryEdition.create({
    data: { entryId, print, data, personName: shop.by.name, at: shop.now },
    select: { id: true },
  });
}

/** Takes over entries of the starting library that the shop has not: those named, or all. Answers how many came. */
export async function takeEntries(
  shop: ShopHandle,
  input: { entries: readonly string[]; all?: string | undefined; key?: string | undefined },
): Promise<number> {
  const wanted = input.all
    ? STARTING_LIBRARY
    : STARTING_LIBRARY.filter(({ key }) => input.entries.includes(key));
  if (wanted.length === 0) throw new Refusal("Nothing is ticked.", "Tick what you want to take over.");
  return shop.write((tx) => once(tx, shop, "took entries over", input, () => addEntriesIn(tx, shop, wanted)));
}

/** Brings a library's file in: entries of keys that are here already stay as they are. */
export async function importLibrary(
  shop: ShopHandle,
  input: { file: readonly LibraryEntry[]; key?: string | undefined },
): Promise<{ added: number; kept: number }> {
  return shop.write((tx) =>
    once(tx, shop, "brought a library in", input, async () => {
      const added = await addEntriesIn(tx, shop, input.file);
      return { added, kept: input.file.length - added };
    }),
  );
}

/** Stores an entry as a form says it: a new one, or in place of the text that was seen. Answers its id and key. */
export async function saveEntry(
  shop: ShopHandle,
  input: EntryForm & { key?: string | undefined },
): Promise<{ id: number; key: string }> {
  return shop.write((tx) =>
    once(tx, shop, "saved an entry of the library", input, () =>
      input.id === undefined ? addIn(tx, shop, input.entry) : changeIn(tx, shop, { ...input, id: input.id }),
    ),
  );
}

async function addIn(tx: ShopTx, shop: ShopHandle, said: EntrySaid): Promise<{ id: number; key: string }> {
  const rows = await tx.libraryEntry.findMany({
    select: { key: true },
    orderBy: { id: "asc" },
    take: MOST_ENTRIES,
  });
  demandRoom(rows.length + 1);
  // A key of the starting library stays free for what it means there.
  const taken = [...rows, ...STARTING_LIBRARY].map(({ key }) => key);
  const key = freshKey(taken, said.name);
  const id = await createIn(tx, shop, { ...said, key } as LibraryEntry);
  await audit(tx, shop, "added", "libraryEntry", id, { key });
  return { id, key };
}

async function changeIn(
  tx: ShopTx,
  shop: ShopHandle,
  { id, version, over, entry: said }: EntryForm & { id: number },
): Promise<{ id: number; key: string }> {
  const row = await tx.libraryEntry.findUnique({
    where: { id },
    select: { key: true, kind: true, version: true },
  });
  if (row?.kind !== said.kind)
    throw new Refusal("There is no such entry.", "Choose one from the library.", {}, "missing");
  const seen = Object.hasOwn(over ?? {}, String(row.version)) ? row.version : version;
  const entry = { ...said, key: row.key } as LibraryEntry;
  await demandOne(
    tx.libraryEntry.updateMany({
      where: { id, version: seen ?? 0 },
      data: { ...columns(entry), version: { increment: 1 } },
    }),
    () =>
      new Refusal(
        "Someone changed this entry while you were typing. Nothing of yours was saved or lost.",
        "Look at it in another tab; to save yours all the same, tick “Save mine over these changes”.",
        { [`over.${row.version}`]: "Tick this to save yours over what is there now." },
        "conflict",
      ),
  );
  await editionIn(tx, shop, id, entry);
  await audit(tx, shop, "changed", "libraryEntry", id, { key: row.key });
  return { id, key: row.key };
}

/** Takes an entry out of the library, or puts it back: packages that picked it keep what they have. */
export async function retireEntry(
  shop: ShopHandle,
  input: { id: number; version: number; active: "yes" | "no" },
): Promise<void> {
  const active = input.active === "yes";
  await shop.write(async (tx) => {
    await demandOne(
      tx.libraryEntry.updateMany({
        where: { id: input.id, version: input.version },
        data: { active, version: { increment: 1 } },
      }),
      () => new Refusal("The entry was changed since you opened it.", "Open it again.", {}, "conflict"),
    );
    await audit(tx, shop, active ? "put back" : "took out", "libraryEntry", input.id);
  });
}
