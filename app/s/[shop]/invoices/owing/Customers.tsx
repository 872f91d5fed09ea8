import type { ReactNode } from "react";
import { Link } from "@/app/_ui/Link";
import { Money } from "@/app/_ui/Money";
import type { listOwing } from "@/lib/data/chasing/owing";
import type { Column } from "@/lib/domain/chasing/accountLines";
import { COLUMN_WORDS, COLUMNS, type OwingQueryInput } from "@/lib/schemas/chasing";
import { owingHref } from "./address";

interface Props {
  slug: string;
  on: string;
  owing: Awaited<ReturnType<typeof listOwing>>;
  currency: string;
  locale: string;
}

const OPENS =
  "inline-flex min-h-6 items-center underline decoration-dotted decoration-brass underline-offset-4 pointer-coarse:min-h-12";

/** A row for each customer, a column for each age, and what each has coming; every figure opens to its documents. */
export function Customers({ slug, on, owing, currency, locale }: Props) {
  const shown = COLUMNS.filter((column) => owing.sums.columns[column]);
  const figure = (minor: number | undefined, query: Partial<OwingQueryInput>, what: string): ReactNode =>
    minor !== undefined ? (
      <Link href={owingHref(slug, { on, ...query })} className={OPENS}>
        <span className="sr-only">{what}: </span>
        <Money minor={minor} currency={currency} locale={locale} />
      </Link>
    ) : null;
  const cells = (
    columns: Readonly<Partial<Record<Column, number>>>,
    query: Partial<OwingQueryInput>,
    name: string,
  ) =>
    shown.map((column) => (
      <td
        key={column}
        data-name={COLUMN_WORDS[column]}
        data-align="end"
        data-figure=""
        data-empty={columns[column] ? undefined : ""}
      >
        {figure(columns[column] || undefined, { ...query, column }, `${name}, ${COLUMN_WORDS[column]}`)}
      </td>
    ));
  return (
    <table className="ledger">
      <caption className="sr-only">What customers owe, by age</caption>
      <thead>
        <tr>
          <th scope="col">Customer</th>
          {shown.map((column) => (
            <th key={column} scope="col" data-align="end">
              {COLUMN_WORDS[column]}
            </th>
          ))}
          <th scope="col" data-align="end">
            In all
          </th>
        </tr>
      </thead>
      <tbody>
        {owing.rows.map(({ id, name, columns, totalMinor }) => (
          <tr key={id ?? 0}>
            <td data-first="">
              {id === null ? (
                name
              ) : (
                <Link href={`/s/${slug}/customers/${id}/statement?to=${on}`} className="row-link">
                  {name}
                </Link>
              )}
            </td>
            {cells(columns, id === null ? { by: "document" } : { customer: id }, name)}
            <td data-name="In all" data-align="end" data-figure="">
              <strong>
                {id === null ? (
                  <Money minor={totalMinor} currency={currency} locale={locale} />
                ) : (
                  figure(totalMinor, { customer: id }, `${name}, in all`)
                )}
              </strong>
            </td>
          </tr>
        ))}
        <tr className="border-ink border-t-2 font-bold">
          <td data-first="">All customers</td>
          {cells(owing.sums.columns, {}, "All customers")}
          <td data-name="In all" data-align="end" data-figure="">
            {figure(owing.sums.totalMinor, { by: "document" }, "All customers, in all")}
          </td>
        </tr>
      </tbody>
    </table>
  );
}
