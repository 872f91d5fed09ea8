import type { ReadRow } from "@/lib/domain/imports/types";
import { Refusal } from "@/lib/domain/refusal";
import { fetched } from "../common/chunks";
import type { Entry, Reader } from "./types";

type Noun = "customer" | "bike" | "part";

interface Finders<T> {
  byKeys(keys: string[]): Promise<T[]>;
  byIds(ids: number[]): Promise<T[]>;
  keyOf(record: T): string | null;
}

/**
 * The record that each row is: by its key, by a key that the record is known by besides, or because the row was taken for it.
 * `learned` are keys by which the file knows its record from now on.
 */
export async function knownRecords<T extends { readonly id: number }>(
  reader: Reader,
  noun: Noun,
  rows: readonly ReadRow<unknown>[],
  find: Finders<T>,
): Promise<{ of(row: ReadRow<unknown>): T | undefined; learned: Entry[] }> {
  const keys = rows.map((row) => row.key);
  const byKey = new Map((await fetched(keys, find.byKeys)).map((record) => [find.keyOf(record), record]));
  const also = await otherKeys(reader, noun, keys);
  const taken = rows.flatMap((row) => (row.target === undefined ? [] : [row.target]));
  const byId = new Map(
    (await fetched([...new Set([...also.values(), ...taken])], find.byIds)).map((one) => [one.id, one]),
  );
  const byOwnKey = (row: ReadRow<unknown>) => byKey.get(row.key) ?? byId.get(also.get(row.key) ?? 0);
  const learned = rows.flatMap((row): Entry[] => {
    if (row.target === undefined || byOwnKey(row)) return [];
    if (!byId.has(row.target)) throw goneMeanwhile(row.line);
    return [{ noun, nounId: row.target, act: "known", version: 0, was: { key: row.key } }];
  });
  return {
    of: (row) => byOwnKey(row) ?? (row.target === undefined ? undefined : byId.get(row.target)),
    learned,
  };
}

const goneMeanwhile = (line: number) =>
  new Refusal(
    `What line ${line} was taken for is not there any more. Nothing came in.`,
    "Check the file once more.",
    {},
    "conflict",
  );

/** Ids by keys that a merge or an earlier file left. */
export async function otherKeys(
  reader: Pick<Reader, "knownKey">,
  noun: Noun,
  keys: readonly string[],
): Promise<Map<string, number>> {
  const rows = await fetched(keys, (some) =>
    reader.knownKey.findMany({
      where: { noun, key: { in: some } },
      select: { key: true, nounId: true },
      orderBy: { key: "asc" },
    }),
  );
  return new Map(rows.map((row) => [row.key, row.nounId]));
}
