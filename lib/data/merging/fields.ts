import type { Said } from "./types";

type Plain = string | number | boolean | null;
export type Plains = Readonly<Record<string, Plain>>;

const blank = (value: Plain | undefined): boolean =>
  value === null || value === undefined || value === "" || value === 0 || value === false;

/** The kept record's blanks filled from the other, and what the other says otherwise; `names` lists the fields that count. */
export function joinFields(
  kept: Plains,
  gone: Plains,
  names: Readonly<Record<string, string>>,
): { to: Record<string, Plain>; filled: Said[]; left: Said[] } {
  const to: Record<string, Plain> = {};
  const [filled, left]: [Said[], Said[]] = [[], []];
  for (const [key, name] of Object.entries(names)) {
    const [one, other] = [kept[key], gone[key]];
    if (other === undefined || blank(other) || one === other) continue;
    const said = { name, value: other === true ? "yes" : String(other) };
    if (blank(one)) {
      to[key] = other;
      filled.push(said);
    } else left.push(said);
  }
  return { to, filled, left };
}

/** "2 bikes", of what there is any of. */
export const counted = (counts: Readonly<Record<string, number>>): string[] =>
  Object.entries(counts)
    .filter(([, count]) => count > 0)
    .map(([noun, count]) => `${count} ${count === 1 ? noun : pluralOf(noun)}`);

const pluralOf = (noun: string): string => (noun.endsWith("y") ? `${noun.slice(0, -1)}ies` : `${noun}s`);
