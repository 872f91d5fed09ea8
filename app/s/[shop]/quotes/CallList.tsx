import { dateText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { moneyText } from "@/app/_ui/moneyText";
import { Section } from "@/app/_ui/Section";
import type { ToCall } from "@/lib/data/quotes/call";

const DAY = /\d{4}-\d{2}-\d{2}/g;

interface Props {
  slug: string;
  calls: readonly ToCall[];
  currency: string;
  locale: string;
}

/** Whom to call about a quote that is out, and why; nothing while nobody waits. */
export function CallList({ slug, calls, currency, locale }: Props) {
  if (calls.length === 0) return null;
  return (
    <Section title="To call">
      <ul>
        {calls.map((one) => (
          <li
            key={one.id}
            className="grid items-baseline gap-x-5 border-hair border-b py-2 sm:grid-cols-[minmax(0,2fr)_minmax(0,3fr)_auto_auto]"
          >
            <Link
              href={`/s/${slug}/quotes/${one.id}`}
              className="inline-flex min-h-6 items-center underline decoration-hair underline-offset-4 hover:decoration-ink pointer-coarse:min-h-12"
            >
              <strong>{one.customer}</strong>
              <span className="ml-2 font-mono text-soft">{one.number}</span>
            </Link>
            <span>
              {one.why.map((why) => why.replace(DAY, (day) => dateText(day, locale))).join(" · ")}
              <span className="block text-[14px] text-soft">{`${one.bike} · ${one.title}`}</span>
            </span>
            <span className="font-mono">{moneyText(one.grossMinor, currency, locale)}</span>
            {one.phone ? (
              <a
                href={`tel:${one.phone.replace(/[^+\d]/g, "")}`}
                className="inline-flex min-h-6 items-center font-mono text-brass underline underline-offset-4 pointer-coarse:min-h-12"
              >
                {one.phone}
              </a>
            ) : (
              <span className="text-soft">no number</span>
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}
