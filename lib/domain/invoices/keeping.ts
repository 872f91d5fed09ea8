import { Temporal } from "temporal-polyfill";
import { dayAfter } from "../schedule/localTime";
import { rangeAround } from "../schedule/ranges";

/** For how many years after its accounting year a country wants a document kept. */
export interface KeepingRule {
  readonly years: number;
  readonly source: string;
}

const CHECK = "confirm with your accountant";

/** From memory of the laws named. */
const RULES: Readonly<Record<string, KeepingRule>> = {
  AU: {
    years: 5,
    source: `Income Tax Assessment Act 1936 (AU), s 262A(4): five years after it was made or its transaction completed; here from the end of that income year, ${CHECK}`,
  },
  NO: {
    years: 5,
    source: `Bokføringsloven (NO), § 13: five years after the end of the accounting year, ${CHECK}`,
  },
};

/** Where no rule of the country is known: as long as the longest that are usual (judgement). */
const USUAL: KeepingRule = {
  years: 10,
  source: `No rule of your country is known here: ten years, ${CHECK}`,
};

/** The longest that a shop may ask for, in years: without a bound nothing would ever be erased (judgement). */
export const MOST_KEEP_YEARS = 30;

/** The country's rule (ISO 3166-1 code), and whether it is one that the law sets: then a shop may only keep for longer. */
export function countryKeeping(country: string): KeepingRule & { readonly known: boolean } {
  const rule = RULES[country];
  return rule ? { ...rule, known: true } : { ...USUAL, known: false };
}

/** For how many years a shop keeps: what it asked for, never less than a known rule of its country; null is the rule itself. */
export function keepingOf(country: string, asked: number | null): KeepingRule {
  const { known, ...rule } = countryKeeping(country);
  if (asked === null || (known && asked <= rule.years)) return rule;
  return { years: asked, source: `Your shop keeps them for ${asked} years` };
}

/** The last day ("YYYY-MM-DD") on which a document of a day is kept: its accounting year's last, so many years later. */
export function keptUntil(day: string, country: string, years: number): string {
  const { range } = rangeAround("year", day, country);
  // The range ends with the day while its year runs: its first day is the same either way.
  return Temporal.PlainDate.from(range.from)
    .add({ years: years + 1 })
    .subtract({ days: 1 })
    .toString();
}

/** The newest day whose documents are kept no longer today: `keptUntil` of it, and of every day before, is past. */
export function keptNoLonger(today: string, country: string, years: number): string {
  const then = Temporal.PlainDate.from(today).subtract({ years }).toString();
  return dayAfter(rangeAround("year", then, country).range.from, -1);
}
