import { type DateLook, dateText } from "./format";

/** A calendar date (2026-11-25) by locale. */
export function DateText({
  date,
  locale,
  look,
}: {
  date: string;
  locale: string;
  look?: DateLook | undefined;
}) {
  return (
    <time dateTime={date} className="whitespace-nowrap">
      {dateText(date, locale, look)}
    </time>
  );
}
