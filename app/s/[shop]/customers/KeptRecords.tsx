import { DateText } from "@/app/_ui/DateText";
import { Link } from "@/app/_ui/Link";
import type { Kept } from "@/lib/data/erasing/keeping";

const PLACES = { invoice: "invoices", revision: null, job: "jobs" } as const;

/** What the law wants kept of a customer, each until when. */
export function KeptRecords({ slug, locale, kept }: { slug: string; locale: string; kept: readonly Kept[] }) {
  if (kept.length === 0) return <p className="text-soft">Nothing: they have no documents.</p>;
  return (
    <ul className="max-w-[720px]">
      {kept.map(({ noun, nounId, name, until, whole }) => {
        const place = PLACES[noun];
        return (
          <li
            key={`${noun}-${nounId}`}
            className="flex flex-wrap justify-between gap-x-6 border-hair border-b py-2"
          >
            {place ? (
              <Link
                href={`/s/${slug}/${place}/${nounId}`}
                className="text-brass underline underline-offset-4"
              >
                {name}
              </Link>
            ) : (
              <span>{name}</span>
            )}
            <span className="text-soft">
              {whole ? "names them until " : "names nobody any more; was kept until "}
              <DateText date={until} locale={locale} />
            </span>
          </li>
        );
      })}
    </ul>
  );
}
