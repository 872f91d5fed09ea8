import { Link } from "@/app/_ui/Link";
import { Money } from "@/app/_ui/Money";
import { taxNameOf } from "@/lib/domain/tax/rates";
import { grossOf } from "@/lib/domain/taxReport/split";
import type { TaxSummary } from "@/lib/domain/taxReport/summary";
import { taxHref } from "./address";

interface Props {
  slug: string;
  part: "main" | "deposits" | "off";
  caption: string;
  summary: TaxSummary;
  query: { readonly by: string; readonly from: string; readonly to: string; readonly basis: string };
  formats: { readonly currency: string; readonly locale: string; readonly taxRegime: string };
}

const OPENS =
  "inline-flex min-h-6 items-center underline decoration-dotted decoration-brass underline-offset-4 pointer-coarse:min-h-12";

/** A row for each category and rate, then the sums; each row opens to what it stands on. */
export function Cells({ slug, part, caption, summary, query, formats }: Props) {
  const { currency, locale, taxRegime } = formats;
  const money = (minor: number) => <Money minor={minor} currency={currency} locale={locale} />;
  const figure = (name: string, minor: number) => (
    <td data-name={name} data-align="end" data-figure="">
      {money(minor)}
    </td>
  );
  return (
    <table className="ledger">
      <caption className="pt-5 text-start font-semibold">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">Rate</th>
          <th scope="col">Category</th>
          {["Entries", "Net", "Tax", "Gross"].map((name) => (
            <th key={name} scope="col" data-align="end">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {summary.cells.map((cell) => (
          <tr key={`${cell.category} ${cell.rateBp}`}>
            <td>
              <Link
                className={OPENS}
                href={taxHref(
                  slug,
                  { ...query, part, category: cell.category, rate: cell.rateBp },
                  "/documents",
                )}
              >
                {taxNameOf(taxRegime, cell.category, cell.rateBp)}
              </Link>
            </td>
            <td data-name="Category">{cell.category}</td>
            <td data-name="Entries" data-align="end" data-figure="">
              {cell.count}
            </td>
            {figure("Net", cell.netMinor)}
            {figure("Tax", cell.taxMinor)}
            {figure("Gross", grossOf(cell))}
          </tr>
        ))}
        <tr className="border-ink border-t-2 font-bold">
          <td>Together</td>
          <td aria-hidden="true" />
          <td data-name="Entries" data-align="end" data-figure="">
            {summary.cells.reduce((sum, cell) => sum + cell.count, 0)}
          </td>
          {figure("Net", summary.netMinor)}
          {figure("Tax", summary.taxMinor)}
          {figure("Gross", summary.grossMinor)}
        </tr>
      </tbody>
    </table>
  );
}
