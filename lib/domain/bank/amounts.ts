import { readNumber, scaled } from "../imports/numbers";
import type { Mark } from "../imports/types";
import { minorPerMajor } from "../money/currency";

type AmountRead = { readonly minor: number } | { readonly wrong: string; readonly remedy: string };

/**
 * An amount as a bank writes it, in minor units: a minus before or after it, or brackets, for money out; a plus and the currency's
 * sign are left out.
 */
export function readAmount(text: string, mark: Mark, currency: string): AmountRead {
  const plain = text
    .slice(0, 80)
    .replace(/[+$€£\s\u00a0\u202f]/gu, "")
    .replace(/^(?:kr\.?|[A-Z]{3})|(?:kr\.?|[A-Z]{3})$/giu, "");
  const bracketed = /^\((.*)\)$/u.exec(plain)?.[1];
  const after = /^([^-−]*)[-−]$/u.exec(plain)?.[1];
  const read = readNumber(bracketed ?? after ?? plain, mark);
  if ("wrong" in read) return read;
  const minor = scaled(read.value, minorPerMajor(currency));
  if (typeof minor !== "number") return minor;
  return { minor: bracketed !== undefined || after !== undefined ? 0 - Math.abs(minor) : minor };
}

/** The decimal mark that these texts use; `usual`, the place's own, where none tells. */
export function guessMark(texts: readonly string[], usual: Mark): Mark {
  for (const text of texts) {
    const last = /([.,])(\d{1,2})\D*$/u.exec(text.slice(0, 80));
    if (last?.[1] === "." || last?.[1] === ",") return last[1];
  }
  return usual;
}
