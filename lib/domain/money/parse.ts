import { Refusal } from "../refusal";
import { minorDigits } from "./currency";
import { marksOf } from "./format";
import { roundHalfAway } from "./round";

const SYMBOLS = /^(?:[$€£¥]|kr\.?)|(?:[$€£¥]|kr\.?)$/iu;
const SPACES = /[\s\u00a0\u202f\u2009'’]/gu;

const refuse = (text: string, why: string, example: string): never => {
  throw new Refusal(`"${text}" ${why}.`, `Enter an amount such as ${example}.`);
};

/** Which of "," and "." is the decimal mark in `body`; "" for none, undefined where it cannot be told. */
function decimalMark(body: string, locale: string): "," | "." | "" | undefined {
  const commas = body.split(",").length - 1;
  const dots = body.split(".").length - 1;
  if (!commas && !dots) return "";
  if (commas && dots) {
    const last = body.lastIndexOf(",") > body.lastIndexOf(".") ? "," : ".";
    return (last === "," ? commas : dots) === 1 ? last : undefined;
  }
  if (commas + dots > 1) return "";
  const mark = commas ? "," : ".";
  const { decimal, group } = marksOf(locale);
  if (mark === decimal) return mark;
  const threeAfter = body.length - body.indexOf(mark) - 1 === 3;
  if (threeAfter) return mark === group ? "" : undefined;
  return mark;
}

/**
 * A typed amount in minor units: "1 234,50", "1,234.50", "1234.5", "-12", "$1.00" with the currency's sign or code.
 * A mark that could mean either is read as the locale reads it; groups must have three digits.
 * Throws Refusal for no number, a mark that cannot be told, too many decimals or too large an amount.
 */
export function parseMoney(typed: string, currency: string, locale: string): number {
  const digits = minorDigits(currency);
  const example = `${marksOf(locale).decimal === "," ? "1234,50" : "1234.50"}`.slice(
    0,
    digits ? 5 + digits : 4,
  );
  const bare = typed
    .trim()
    .replace(new RegExp(`^${currency}|${currency}$`, "iu"), "")
    .trim();
  const negative = /^[-−]/u.test(bare);
  const text = bare
    .replace(/^[-−+]/u, "")
    .trim()
    .replace(SYMBOLS, "")
    .trim()
    .replace(SPACES, " ");
  const mark = decimalMark(text, locale);
  if (mark === undefined) return refuse(typed, "can be read in two ways", example);
  const [whole = "", fraction = ""] = mark ? text.split(mark) : [text];
  const grouped = /^\d{1,3}(?:([ ,.])\d{3})(?:\1\d{3})*$/u.test(whole);
  if (!(grouped || /^\d*$/u.test(whole)) || !/^\d*$/u.test(fraction) || !(whole || fraction))
    return refuse(typed, "is no amount", example);
  if (fraction.length > digits)
    return refuse(typed, `has more than ${digits} decimals, which ${currency} does not have`, example);
  const minor = BigInt(`${whole.replace(/\D/gu, "")}${fraction.padEnd(digits, "0")}`);
  return roundHalfAway(negative ? -minor : minor);
}
