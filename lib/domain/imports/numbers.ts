import type { Mark } from "./types";

const SPACES = /[\s\u00a0\u2009\u202f'’]/gu;

const LONGEST = 60;

/** A cell's number as a plain decimal text ("-1234.5"), or what is wrong with it and what to write instead. */
export type NumberRead = { readonly value: string } | { readonly wrong: string; readonly remedy: string };

/**
 * Reads a number as people type it into lists: "12.5", "12,5", "1 234,50", "1,234.50", "-3".
 * Two different marks: the last one is the decimal mark. One mark with exactly three digits after it and one to three
 * before ("1,250") could be either: `mark`, the file's decimal mark, decides. Groups must have three digits.
 * Source: judgement, in line with Unicode CLDR's grouping of three.
 */
export function readNumber(text: string, mark: Mark): NumberRead {
  if (text.length > LONGEST) return { wrong: "is no number", remedy: "Write digits only, such as 12.5." };
  const body = text.replace(SPACES, "").replace("−", "-");
  const found = /^(-?)(\d[\d.,]*)$/u.exec(body);
  const digits = found?.[2];
  if (!digits) return { wrong: "is no number", remedy: "Write digits only, such as 12.5." };
  const at = decimalAt(digits, mark);
  const whole = at === -1 ? digits : digits.slice(0, at);
  const fraction = at === -1 ? "" : digits.slice(at + 1);
  const grouped = /^\d{1,3}(?:([.,])\d{3})(?:\1\d{3})*$/u.test(whole);
  const other = at === -1 ? "" : digits.charAt(at);
  if (
    !(grouped || /^\d+$/u.test(whole)) ||
    !/^\d*$/u.test(fraction) ||
    (other && whole.includes(other)) ||
    digits.endsWith(other || "!")
  )
    return {
      wrong: "has marks that do not make a number",
      remedy: "Write it with one decimal mark and none between thousands, such as 1234.5.",
    };
  return { value: `${found[1]}${whole.replace(/\D/gu, "")}.${fraction || "0"}` };
}

/** Where the decimal mark stands in `digits`; -1 for none. */
function decimalAt(digits: string, mark: Mark): number {
  const marks = [...digits.matchAll(/[.,]/gu)];
  const last = marks.at(-1);
  if (!last) return -1;
  if (marks.some((each) => each[0] !== last[0])) return last.index;
  if (marks.length > 1) return -1;
  const couldGroup = /^[1-9]\d{0,2}[.,]\d{3}$/u.test(digits);
  return couldGroup && last[0] !== mark ? -1 : last.index;
}

/** A plain decimal text times `factor`, a power of ten, as a safe whole number, or why it cannot be kept so. */
export function scaled(
  value: string,
  factor: number,
): number | { readonly wrong: string; readonly remedy: string } {
  const most = Math.round(Math.log10(factor));
  const [whole = "", fraction = ""] = value.split(".");
  const kept = fraction.replace(/0+$/u, "");
  if (kept.length > most)
    return { wrong: `has more than ${most} decimals`, remedy: `Round it to ${most} decimals.` };
  const result = Number(whole + kept.padEnd(most, "0"));
  // Every kept figure is a 32-bit whole number in the database.
  if (Math.abs(result) > 2_147_483_647)
    return { wrong: "is larger than can be kept", remedy: "Check for a mark that is missing or too many." };
  return result === 0 ? 0 : result;
}
