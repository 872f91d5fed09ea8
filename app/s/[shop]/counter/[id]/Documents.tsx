import { Link } from "@/app/_ui/Link";
import { Money } from "@/app/_ui/Money";
import { Section } from "@/app/_ui/Section";
import type { SaleView } from "@/lib/data/sales/get";
import { KIND_NAMES } from "@/lib/schemas/invoices";

/** Every paper of a sale, in the order they were issued. */
export function Documents({
  slug,
  documents,
  currency,
  locale,
}: {
  slug: string;
  documents: SaleView["documents"];
  currency: string;
  locale: string;
}) {
  return (
    <Section title="Papers">
      <ul>
        {documents.map((one) => (
          <li key={one.id} className="border-hair border-b">
            <Link
              href={`/s/${slug}/invoices/${one.id}`}
              className="flex min-h-11 items-center justify-between gap-3 pointer-coarse:min-h-12"
            >
              <span>
                {KIND_NAMES[one.kind]} {one.written}
                {one.creditedBy.length > 0 && `, taken back with ${one.creditedBy[0]?.written}`}
              </span>
              <Money minor={one.grossMinor} currency={currency} locale={locale} />
            </Link>
          </li>
        ))}
      </ul>
    </Section>
  );
}
