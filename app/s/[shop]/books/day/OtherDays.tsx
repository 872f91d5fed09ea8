import { DateText } from "@/app/_ui/DateText";
import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import type { OpenDay } from "@/lib/data/endOfDay/open";

/** The other days that are open: each by itself is best, one count for several where nobody counted in between. */
export function OtherDays({ day, path, locale }: { day: OpenDay; path: string; locale: string }) {
  const others = day.days.filter((one) => one !== day.day);
  if (others.length === 0) return null;
  return (
    <Note title={day.day === day.days[0] ? "Not the last open day." : "Days before are counted with it."}>
      Each day is closed by itself, the oldest first. If nobody counted in between, close several with one
      count by choosing the last of them:{" "}
      {others.slice(0, 12).map((one, at) => (
        <span key={one}>
          {at > 0 && ", "}
          <Link href={`${path}?day=${one}`}>
            <DateText date={one} locale={locale} />
          </Link>
        </span>
      ))}
      .
    </Note>
  );
}
