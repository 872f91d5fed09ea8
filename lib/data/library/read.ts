import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { EntryKind, LibraryEntry } from "@/lib/domain/library/entry";
import type { Kept, Library } from "@/lib/domain/library/pick";
import { searchWords } from "@/lib/domain/searchKey";
import { type LibraryFile, type LibraryQueryInput, MOST_ENTRIES } from "@/lib/schemas/library";
import { storedEntry } from "./stored";

type Reads = Pick<ShopTx, "libraryEntry" | "libraryEdition">;

export interface EntryView {
  readonly id: number;
  readonly version: number;
  readonly active: boolean;
  readonly print: string;
  readonly entry: LibraryEntry;
}

const VIEW = { id: true, version: true, active: true, print: true, data: true } as const;
const viewOf = ({ data, ...row }: Omit<EntryView, "entry"> & { data: unknown }): EntryView => ({
  ...row,
  entry: storedEntry(data),
});

/** Entries by place and name, narrowed; those taken out of the library last. */
export async function listEntries(shop: ShopHandle, query: LibraryQueryInput): Promise<readonly EntryView[]> {
  const rows = await shop.read.libraryEntry.findMany({
    where: narrowed(query),
    select: VIEW,
    orderBy: [{ active: "desc" }, { kind: "asc" }, { place: "asc" }, { name: "asc" }],
    take: MOST_ENTRIES,
  });
  return rows.map(viewOf);
}

function narrowed({ q, kind, family, place }: LibraryQueryInput): Prisma.LibraryEntryWhereInput {
  return {
    ...(kind ? { kind } : {}),
    ...(place ? { place } : {}),
    AND: [
      ...(family ? [{ OR: [{ families: "" }, { families: { contains: `,${family},` } }] }] : []),
      ...searchWords(q).map((word) => ({ searchKey: { contains: word } })),
    ],
  };
}

export interface EntryPage extends EntryView {
  /** Every text it has had, the newest first. */
  readonly editions: readonly { readonly print: string; readonly personName: string; readonly at: Date }[];
}

/** One entry with its history; null where it does not exist. */
export async function getEntry(shop: ShopHandle, id: number): Promise<EntryPage | null> {
  const row = await shop.read.libraryEntry.findUnique({
    where: { id },
    select: {
      ...VIEW,
      editions: { select: { print: true, personName: true, at: true }, orderBy: { id: "desc" }, take: 30 },
    },
  });
  if (!row) return null;
  const { editions, ...rest } = row;
  return { ...viewOf(rest), editions };
}

/** What can be picked: all entries that are in the library, by key. */
export async function libraryIn(tx: Reads): Promise<Library> {
  const rows = await tx.libraryEntry.findMany({
    where: { active: true },
    select: { key: true, print: true, data: true },
    orderBy: { id: "asc" },
    take: MOST_ENTRIES,
  });
  return new Map(
    rows.map((row): [string, Kept] => [row.key, { entry: storedEntry(row.data), print: row.print }]),
  );
}

/** The texts of entries that some prints stand for, by “key print”. */
export async function textsIn(
  tx: Reads,
  wanted: readonly { readonly entry: string; readonly print: string }[],
): Promise<(entry: string, print: string) => LibraryEntry | undefined> {
  const rows = await tx.libraryEdition.findMany({
    where: {
      print: { in: [...new Set(wanted.map((one) => one.print))] },
      entry: { key: { in: [...new Set(wanted.map((one) => one.entry))] } },
    },
    select: { print: true, data: true, entry: { select: { key: true } } },
    orderBy: { id: "asc" },
    take: 1000,
  });
  const texts = new Map(rows.map((row) => [`${row.entry.key} ${row.print}`, storedEntry(row.data)]));
  return (entry, print) => texts.get(`${entry} ${print}`);
}

/** Names by key of the entries of one kind, to be chosen from while another is written. */
export async function entriesToName(
  shop: ShopHandle,
  kind: EntryKind,
): Promise<readonly { readonly key: string; readonly name: string }[]> {
  return shop.read.libraryEntry.findMany({
    where: { kind, active: true },
    select: { key: true, name: true },
    orderBy: [{ place: "asc" }, { name: "asc" }],
    take: MOST_ENTRIES,
  });
}

/** The words of the library's cautions or checks. */
export async function linesToPick(shop: ShopHandle, kind: "caution" | "check"): Promise<readonly string[]> {
  return (await entriesToName(shop, kind)).map(({ name }) => name);
}

/** The library as a file: what is in it now. */
export async function libraryFile(shop: ShopHandle): Promise<LibraryFile> {
  const library = await libraryIn(shop.read);
  return {
    format: "throttlewright-library",
    version: 1,
    entries: [...library.values()].map(({ entry }) => entry as LibraryFile["entries"][number]),
  };
}
