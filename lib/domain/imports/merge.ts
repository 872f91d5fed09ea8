import { searchKey } from "../searchKey";
import type { ReadFile, ReadRow, RowNote, RowProblem } from "./types";

type Values = Readonly<Record<string, unknown>>;

/**
 * Rows with the same key become one: what is blank in one is filled from the other, and a note says so. Rows that say
 * different things under one key are all refused, each naming the other's line: nobody guesses which is right.
 */
export function mergeRows<T extends Values>(
  read: ReadFile<T>,
  keyName: string,
  names: Readonly<Record<string, string>> = {},
): ReadFile<T> {
  const kept = new Map<string, ReadRow<T>>();
  const problems: RowProblem[] = [...read.problems];
  const notes: RowNote[] = [...read.notes];
  const refused = new Set<number>();
  for (const row of read.rows) {
    const first = kept.get(row.key);
    if (!first) {
      kept.set(row.key, row);
      continue;
    }
    const differ = Object.keys(row.values).filter((field) =>
      contradicts(first.values[field], row.values[field]),
    );
    if (differ.length === 0) {
      kept.set(row.key, { ...first, values: { ...row.values, ...filled(first.values) } });
      notes.push({
        line: row.line,
        text: `Says the same as line ${first.line} (${row.key}): taken together.`,
      });
      continue;
    }
    const what = differ.map((field) => names[field] ?? field).join(", ");
    for (const [line, other] of [
      [first.line, row.line],
      [row.line, first.line],
    ] as const) {
      if (line === first.line && refused.has(line)) continue;
      refused.add(line);
      problems.push({
        line,
        column: keyName,
        value: row.key,
        wrong: `stands again on line ${other} with a different ${what}`,
        remedy: "Keep the row that is right, or give one of them its own key.",
      });
    }
  }
  const rows = [...kept.values()].filter((row) => !refused.has(row.line));
  return {
    rows,
    problems: problems.sort((a, b) => a.line - b.line),
    notes: notes.sort((a, b) => a.line - b.line),
  };
}

/**
 * Rows that are one by what they say become one: the first that says something of a field is right, and a note names what
 * another one says otherwise. Spelling apart (case, spaces, marks) nothing is otherwise.
 */
export function joinRows<T extends Values>(
  read: ReadFile<T>,
  names: Readonly<Record<string, string>>,
): ReadFile<T> {
  const kept = new Map<string, ReadRow<T>>();
  const notes: RowNote[] = [...read.notes];
  for (const row of read.rows) {
    const first = kept.get(row.key);
    if (!first) {
      kept.set(row.key, row);
      continue;
    }
    kept.set(row.key, { ...first, values: { ...row.values, ...filled(first.values) } });
    const other = Object.keys(row.values).filter((field) => {
      const [one, two] = [first.values[field], row.values[field]];
      return contradicts(one, two) && saysOtherwise(one, two);
    });
    const left = other.map((field) => `${names[field] ?? field} "${String(row.values[field]).slice(0, 80)}"`);
    notes.push({
      line: row.line,
      text: `Taken together with line ${first.line}${left.length > 0 ? `, without its ${left.join(", ")}: the first line's is kept` : ""}.`,
    });
  }
  return { rows: [...kept.values()], problems: read.problems, notes: notes.sort((a, b) => a.line - b.line) };
}

/** Two values differ by more than spelling: case, marks, spaces, or the order of the words. */
export function saysOtherwise(a: unknown, b: unknown): boolean {
  if (typeof a !== "string" || typeof b !== "string") return a !== b;
  const [one, two] = [folded(a), folded(b)];
  if (one.length === 0 || two.length === 0) return a !== b;
  return one.join("") !== two.join("") && [...one].sort().join(" ") !== [...two].sort().join(" ");
}

const folded = (text: string): string[] => searchKey(text).match(/[\p{L}\p{N}]+/gu) ?? [];

function contradicts(a: unknown, b: unknown): boolean {
  return a !== undefined && b !== undefined && a !== b;
}

/** Filled values only. */
export function filled<T extends object>(values: T): Partial<T> {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as Partial<T>;
}
