import { calendarDay } from "../schedule/calendarDay";
import { DATE_ORDERS, type DateOrder } from "./types";

const PARTS = /^(\d{1,4})[.\-/ ](\d{1,2})[.\-/ ](\d{2,4})(?:[ T].*)?$/u;
const SOLID = /^\d{8}$/u;

/**
 * A day as a bank writes it, as "YYYY-MM-DD"; null where it is none in that order. Day, month and year may be parted by dots,
 * hyphens, slashes or spaces, or stand as eight digits; years of two digits are of this century; a time after it is left out.
 */
export function readDay(text: string, order: DateOrder): string | null {
  const plain = text.trim();
  if (plain.length > 40) return null;
  const found = SOLID.test(plain) ? solid(plain, order) : PARTS.exec(plain)?.slice(1, 4);
  if (!found) return null;
  const at = (part: "d" | "m" | "y") => found[order.indexOf(part)] ?? "";
  if ([at("d"), at("m")].some((part) => part.length > 2)) return null;
  const year = at("y");
  if (year.length !== 2 && year.length !== 4) return null;
  return calendarDay(Number(year.length === 2 ? `20${year}` : year), Number(at("m")), Number(at("d")));
}

const solid = (text: string, order: DateOrder): string[] =>
  order === "ymd"
    ? [text.slice(0, 4), text.slice(4, 6), text.slice(6)]
    : [text.slice(0, 2), text.slice(2, 4), text.slice(4)];

/** The order in which most of these texts are days; of orders that fit alike, `usual`, the place's own. */
export function guessDates(texts: readonly string[], usual: DateOrder): DateOrder {
  const fits = (order: DateOrder) => texts.filter((text) => readDay(text, order) !== null).length;
  return [usual, ...DATE_ORDERS].reduce((best, order) => (fits(order) > fits(best) ? order : best));
}
