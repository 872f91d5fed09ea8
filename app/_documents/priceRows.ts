import { minutesText } from "@/app/_ui/format";
import { moneyText } from "@/app/_ui/moneyText";
import type { PricedQuote, PriceLine } from "@/lib/domain/pricing/facts";
import { byWork } from "@/lib/domain/quoting/byWork";
import type { Reason } from "@/lib/domain/reason";

/** What of a quote's price is told by row. */
export type RowsOf = Pick<PricedQuote, "currency"> & {
  readonly lines: readonly Omit<PriceLine, "costMinor">[];
};

export interface PriceRow {
  readonly key: string;
  readonly name: string;
  readonly minor: number;
  readonly because: readonly Reason[];
}

/** A price as rows that open: each of several works one row of its lines, parts together, what is charged when fitted by itself. */
export function priceRows(
  { currency, lines }: RowsOf,
  works: readonly { readonly key: string; readonly name: string }[],
  locale: string,
): PriceRow[] {
  const row = (key: string, name: string, minor: number, because: readonly Reason[]): PriceRow => ({
    key,
    name,
    minor,
    because,
  });
  const single = (l: RowsOf["lines"][number]) => row(l.key, nameOf(l), l.shownMinor, l.because);
  const sum = (of: RowsOf["lines"]) => of.reduce((all, l) => all + l.shownMinor, 0);
  const listed = (l: RowsOf["lines"][number]): Reason => ({
    fact: l.kind === "part" ? `${l.quantityMilli / 1000} × ${l.name}` : nameOf(l),
    from: l.because[0] ? `${l.because[0].fact}, ${l.because[0].from}` : l.key,
    effect: moneyText(l.shownMinor, currency, locale),
  });
  const own = lines.some((l) => l.work !== undefined) ? byWork(works, lines) : [];
  const worked = own.flatMap(({ work, lines: of }) => {
    const settled = of.filter((l) => !l.unsettled);
    return work && settled.length > 0
      ? [row(`work ${work.key}`, work.name, sum(settled), settled.map(listed))]
      : [];
  });
  const shared = own.length > 0 ? (own.find(({ work }) => !work)?.lines ?? []) : lines;
  const parts = shared.filter((l) => l.kind === "part" && !l.unsettled);
  // What is charged when it is fitted stands by itself: nobody may miss it.
  const open = lines.filter((l) => l.unsettled).map((l) => row(l.key, l.name, l.shownMinor, l.because));
  const other = shared.filter((l) => l.kind !== "part");
  const at = other.filter((l) => l.kind === "labour").length;
  const partsName = `Parts, ${parts.length} ${parts.length === 1 ? "line" : "lines"}`;
  return [
    ...worked,
    ...other.slice(0, at).map(single),
    ...(parts.length > 0 ? [row("parts", partsName, sum(parts), parts.map(listed))] : []),
    ...open,
    ...other.slice(at).map(single),
  ];
}

function nameOf(line: Omit<PriceLine, "costMinor">): string {
  return line.kind === "labour"
    ? `${line.name}, ${minutesText(Math.round((line.quantityMilli * 60) / 1000), "min", "h")}`
    : line.name;
}
