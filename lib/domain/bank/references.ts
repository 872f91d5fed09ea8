import { searchKey } from "../searchKey";
import type { OpenItem, WaitingLine } from "./types";

/** Numbers shorter than this stand in texts by chance: they count only together with the amount (judgement). */
const TELLING = 4;
/** A number of papers is written in at most so many pieces: F 2026 0012. */
const PIECES = 3;

const pieces = (text: string): string[] =>
  searchKey(text)
    .split(/[^a-z0-9]+/u)
    .filter(Boolean);
const solid = (text: string): string => pieces(text).join("");

export interface FoundItem {
  readonly item: OpenItem;
  readonly by: "reference" | "kid";
  /** False for a number that may stand there by chance: a short one, or one that could be the year. */
  readonly telling: boolean;
}

/** Finds what a line names, among all that a shop has open. */
export interface Finder {
  readonly byReference: (line: WaitingLine) => readonly FoundItem[];
  /** Customers whose whole name stands in the line. */
  readonly byName: (line: WaitingLine) => readonly number[];
}

/**
 * Numbers of papers and KIDs are looked for as whole pieces of the text, with or without the signs between them and with or without
 * the prefix; names as all their words. Each line is read once, whatever the shop has open.
 */
export function finderOf(items: readonly OpenItem[]): Finder {
  const written = new Map<string, OpenItem[]>();
  const kids = new Map<string, OpenItem>();
  const names = new Map<string, { words: readonly string[]; customerId: number }[]>();
  const known = new Set<number>();
  for (const item of items) {
    for (const way of new Set([solid(item.written), /\d+$/u.exec(item.written)?.[0] ?? ""]))
      if (way) written.set(way, [...(written.get(way) ?? []), item]);
    if (item.kid) kids.set(item.kid, item);
    if (known.has(item.customerId)) continue;
    known.add(item.customerId);
    const words = pieces(item.customerName).filter((word) => word.length > 1);
    const rarest = words.reduce((best, word) => (word.length > best.length ? word : best), "");
    if (rarest.length < 3) continue;
    names.set(rarest, [...(names.get(rarest) ?? []), { words, customerId: item.customerId }]);
  }
  return {
    byReference: (line) => referencesIn(line, written, kids),
    byName: ({ text, payer }) => {
      const there = new Set(pieces(`${payer} ${text}`));
      const found = [...there].flatMap((word) => names.get(word) ?? []);
      return [
        ...new Set(
          found.filter(({ words }) => words.every((word) => there.has(word))).map((one) => one.customerId),
        ),
      ];
    },
  };
}

function referencesIn(
  { text, payer, bookedOn }: WaitingLine,
  written: ReadonlyMap<string, readonly OpenItem[]>,
  kids: ReadonlyMap<string, OpenItem>,
): FoundItem[] {
  const found = new Map<OpenItem, FoundItem>();
  const words = [...pieces(text), "", ...pieces(payer)];
  const year = Number(bookedOn.slice(0, 4));
  for (let from = 0; from < words.length; from++)
    for (let to = from + 1; to <= Math.min(words.length, from + PIECES); to++) {
      if (words[to - 1] === "") break;
      const way = words.slice(from, to).join("");
      const kid = kids.get(way);
      if (kid) found.set(kid, { item: kid, by: "kid", telling: true });
      const isYear = /^\d{4}$/u.test(way) && Math.abs(Number(way) - year) <= 1;
      for (const item of written.get(way) ?? []) {
        const telling = way.length >= TELLING && !isYear;
        const before = found.get(item);
        if (!before?.telling) found.set(item, { item, by: "reference", telling });
      }
    }
  return [...found.values()];
}
