import { searchKey } from "../searchKey";
import { IMPORT_FIELDS } from "./fields";
import { bareHeading, guessMapping } from "./guess";
import {
  bikeLooks,
  bikeMarks,
  customerLooks,
  customerMarks,
  type Likeness,
  likeBikes,
  likeCustomers,
  nameKey,
} from "./likeness";
import type { BikeRow, CustomerRow } from "./rowTypes";
import type { FileRow, ImportNoun, Mapping } from "./types";

/** By what a file's rows are known when it comes again: a column of it, what they say of themselves, or all of the row. */
export type KeyWay = "column" | "words" | "row";
export const KEY_WAYS: readonly KeyWay[] = ["column", "words", "row"];

/**
 * How the rows of a file are probably known: by its key column where that is filled in every row and differs in every row;
 * else by what they say. Parts and prices are known by their codes.
 */
function guessKeyWay(noun: ImportNoun, rows: readonly FileRow[], map: Mapping): KeyWay {
  if (noun === "parts" || noun === "prices") return "column";
  const column = map.importKey;
  if (typeof column === "number") {
    const filled = rows.filter((row) => row.cells.some((cell) => cell.trim() !== ""));
    const keys = filled.map((row) => (row.cells[column] ?? "").trim());
    if (keys.every((key) => key !== "") && new Set(keys).size === keys.length) return "column";
  }
  return typeof map[noun === "customers" ? "name" : "make"] === "number" ? "words" : "row";
}

/**
 * Columns and key of a file as they are probably meant. A column of frame numbers says them, also where it is the key; a key that
 * does not tell rows apart is none.
 */
export function guessFile(
  noun: ImportNoun,
  headings: readonly string[],
  rows: readonly FileRow[],
): { map: Record<string, number | null>; way: KeyWay } {
  const map = guessMapping(noun, headings);
  const key = map.importKey;
  const way = guessKeyWay(noun, rows, map);
  if (noun === "bikes" && typeof key === "number" && map.frameNumber === null) {
    const frame = IMPORT_FIELDS.bikes.find((field) => field.key === "frameNumber")?.headings ?? [];
    if (frame.includes(bareHeading(headings[key] ?? ""))) map.frameNumber = key;
  }
  if (way !== "column" && "importKey" in map) map.importKey = null;
  return { map, way };
}

/** What a customer is known by without a number: name with phone, else with e-mail. */
export function customerWords(row: CustomerRow): string {
  const { name, phone, email } = customerLooks(row);
  return ["words", name, phone || email].filter(Boolean).join(" | ");
}

/** The same for the same owner: what the file says of them. */
const ownerWords = (row: BikeRow): string =>
  row.customerKey ? `key ${row.customerKey}` : nameKey(row.customerName ?? "");

/** What a bike is known by without a number: its frame number, else its plate, else owner, make, model and year. */
export function bikeWords(row: BikeRow): string {
  const looks = bikeLooks(ownerWords(row), row);
  const [best] = bikeMarks({ ...looks, owner: "" });
  return `words | ${best ?? searchKey(looks.owner, looks.model, looks.year)}`;
}

/** FNV-1a (Fowler, Noll, Vo), twice with different beginnings: a short name for a long text, 64 bits. */
export function fingerprint(text: string): string {
  let [one, two] = [0x811c9dc5, 0x9e3779b9];
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    one = Math.imul(one ^ unit, 0x01000193);
    two = Math.imul(two ^ (unit + 1), 0x01000193);
  }
  return [one, two].map((half) => (half >>> 0).toString(16).padStart(8, "0")).join("");
}

/**
 * Which rows are one: for each its group's number. A row joins a group when it is surely like one of its rows, by a mark that
 * they share, and unlike no other group that it could join: between two, nobody guesses.
 */
function groupsOf<T>(
  rows: readonly T[],
  marksOf: (row: T) => readonly string[],
  like: (a: T, b: T) => Likeness | null,
): number[] {
  const groups: T[][] = [];
  const byMark = new Map<string, Set<number>>();
  return rows.map((row) => {
    const marks = marksOf(row);
    const near = [...new Set(marks.flatMap((mark) => [...(byMark.get(mark) ?? [])]))];
    const fits = near.filter((at) => {
      const all = (groups[at] ?? []).slice(0, MOST_COMPARED).map((other) => like(row, other));
      return all.some((one) => one?.sure) && all.every((one) => !one || one.sure);
    });
    const [only] = fits;
    const at = only !== undefined && fits.length === 1 ? only : groups.push([]) - 1;
    groups[at]?.push(row);
    for (const mark of marks) {
      const known = byMark.get(mark) ?? new Set();
      byMark.set(mark, known);
      // A mark that many share, as a placeholder for a phone does, tells nobody apart.
      if (known.size < MOST_COMPARED) known.add(at);
    }
    return at;
  });
}

const MOST_COMPARED = 8;

export const customerGroups = (rows: readonly CustomerRow[]): number[] =>
  groupsOf(rows.map(customerLooks), customerMarks, likeCustomers);

export const bikeGroups = (rows: readonly BikeRow[]): number[] =>
  groupsOf(
    rows.map((row) => bikeLooks(ownerWords(row), row)),
    bikeMarks,
    likeBikes,
  );
