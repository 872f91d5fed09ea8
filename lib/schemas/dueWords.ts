/** When something is due, beside it on a card: "due today", "due Thursday" within six days, "due 12 Dec" later. */
export function dueText(day: string, today: string, locale: string): string {
  const ahead = Math.round((Date.parse(day) - Date.parse(today)) / 86_400_000);
  if (ahead === 0) return "due today";
  const near = ahead > 0 && ahead < 7;
  const format = new Intl.DateTimeFormat(locale, {
    timeZone: "UTC",
    ...(near ? { weekday: "long" } : { day: "numeric", month: "short" }),
  });
  return `due ${format.format(new Date(`${day}T00:00:00Z`))}`;
}
