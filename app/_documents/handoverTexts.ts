import type { NextCheck, ToPay } from "@/lib/data/papers/handedOver";
import { dayText, distanceText } from "@/lib/documents/format";
import { paperWords } from "@/lib/words/papers";

export interface Said {
  readonly what: string;
  readonly said: string;
}

/** Next checks in words: what, and by which day or at which distance. */
export function checkTexts(
  checks: readonly NextCheck[],
  { locale, units }: { readonly locale: string; readonly units: string },
  words = paperWords(locale),
): Said[] {
  return checks.map(({ kind, what, dueOn, dueKm }) => ({
    what:
      kind === "again" ? words.checkAgain(what) : kind === "service" ? words.checkService : words.checkAsk,
    said: [
      ...(dueOn === null ? [] : [dayText(dueOn, locale)]),
      ...(dueKm === null ? [] : [distanceText(dueKm, units, locale)]),
    ].join(" / "),
  }));
}

/** What is to pay in words, the sum last; none where nothing was agreed. */
export function payTexts(
  { rows, leftMinor }: ToPay,
  locale: string,
  money: (minor: number) => string,
  words = paperWords(locale),
): Said[] {
  const name = (row: ToPay["rows"][number]) => {
    if (row.kind === "invoice")
      return words.payInvoice(row.name, row.dueOn === null ? "" : dayText(row.dueOn, locale));
    if (row.kind === "agreed") return words.payAgreed(row.name);
    return row.kind === "added" ? row.name : words.payDeposit;
  };
  if (rows.length === 0) return [];
  return [
    ...rows.map((row) => ({ what: name(row), said: money(row.minor) })),
    { what: words.toPay, said: money(Math.max(0, leftMinor)) },
  ];
}
