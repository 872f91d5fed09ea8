import { z } from "zod";
import { customerLocale } from "@/lib/words/language";

const WEEK = [1, 2, 3, 4, 5, 6, 7] as const;
/** Any Monday: only its weekdays' names are asked for. */
const MONDAY = Date.UTC(2026, 10, 23);

/** Weekdays with their names, Monday first. */
export function weekdayNames(locale: string): { value: string; name: string }[] {
  const name = new Intl.DateTimeFormat(locale, { weekday: "long", timeZone: "UTC" });
  return WEEK.map((day) => ({ value: String(day), name: name.format(MONDAY + (day - 1) * 86_400_000) }));
}

/** When a customer would like the work; a day is a calendar day of the shop. */
export interface BookingWish {
  /** Null: as soon as it can be. */
  readonly fromDay: string | null;
  /** Weekdays that do not suit, 1 (Monday) to 7. */
  readonly notDays: readonly number[];
  readonly note: string;
}

/** Fields of a form in which someone may say when; they go beside others of the form. */
export const WISH_FIELDS = {
  wishWhen: z.enum(["", "soon", "from"], "Choose one of these.").default(""),
  wishFrom: z
    .union([z.literal(""), z.iso.date("Enter a day of the calendar, or leave it empty.")])
    .default(""),
  wishNot: z
    .array(z.coerce.number().int().min(1).max(7))
    .max(6, "Leave at least one day of the week that suits.")
    .default([]),
  wishNote: z.string().trim().max(300, "Keep this within 300 characters.").default(""),
};

export type WishFields = {
  readonly wishWhen: "" | "soon" | "from";
  readonly wishFrom: string;
  readonly wishNot: readonly number[];
  readonly wishNote: string;
};

/** What such fields come to: null where nothing was said; a problem by field where they contradict each other. */
export function wishOf(f: WishFields): { wish: BookingWish | null } | { field: "wishFrom"; problem: string } {
  if (f.wishWhen === "from" && f.wishFrom === "")
    return { field: "wishFrom", problem: "Enter the day, or choose another answer." };
  if (f.wishWhen === "soon" && f.wishFrom !== "")
    return { field: "wishFrom", problem: "Choose “From a day on”, or empty the day." };
  const said = f.wishWhen !== "" || f.wishFrom !== "" || f.wishNot.length > 0 || f.wishNote !== "";
  const notDays = [...new Set(f.wishNot)].sort((a, b) => a - b);
  return { wish: said ? { fromDay: f.wishFrom || null, notDays, note: f.wishNote } : null };
}

/**
 * A wish in one line for the staff, whose screens are English, with the shop's own way of writing days: "from 7 December
 * 2026, not Tuesday or Friday: after the school run".
 */
export function wishText({ fromDay, notDays, note }: BookingWish, shopLocale: string): string {
  const locale = customerLocale(shopLocale, "en");
  const day = (iso: string) =>
    new Intl.DateTimeFormat(locale, { dateStyle: "long", timeZone: "UTC" }).format(
      Date.parse(`${iso}T00:00:00Z`),
    );
  const names = weekdayNames(locale).filter((d) => notDays.includes(Number(d.value)));
  const not = new Intl.ListFormat(locale, { type: "disjunction" }).format(names.map((d) => d.name));
  const when = fromDay ? `from ${day(fromDay)}` : "as soon as it can be";
  return `${when}${not ? `, not ${not}` : ""}${note ? `: ${note}` : ""}`;
}
