import { priceRows, type RowsOf } from "@/app/_documents/priceRows";
import { minutesText } from "@/app/_ui/format";
import { moneyText } from "@/app/_ui/moneyText";
import type { FrozenQuote } from "@/lib/data/documents/quote";
import type { PricedQuote } from "@/lib/domain/pricing/facts";
import type { Reason } from "@/lib/domain/reason";
import { taxRegime } from "@/lib/domain/tax/rates";
import { priceBuild } from "../priceBuild";

type Price = Pick<PricedQuote, "pricesIncludeTax" | "taxes" | "netMinor" | "taxMinor" | "grossMinor"> &
  RowsOf & { readonly taxRegime?: string | undefined };

export interface PriceShown {
  readonly title: string;
  readonly currency: string;
  readonly locale: string;
  /** Without reasons where they are asked for when a row is opened. */
  readonly rows: readonly {
    readonly key: string;
    readonly name: string;
    readonly minor: number;
    readonly because?: readonly Reason[];
  }[];
  readonly taxes: readonly { readonly key: string; readonly name: string; readonly minor: number }[];
  readonly grossMinor: number;
  readonly depositMinor: number;
  readonly build: ReturnType<typeof priceBuild>;
  /** What one visit saves, in a sentence; empty where it saves nothing. */
  readonly saved: string;
}

interface Priced {
  price: Price;
  /** The works that its lines may be of. */
  works: readonly { readonly key: string; readonly name: string }[];
  savedMinutes: number;
  /** What the saving is told against; absent in earlier quotes: opening up for every single operation. */
  savedAgainst?: "visits" | undefined;
  savedMinor: number;
  depositMinor: number;
  locale: string;
  /** What it costs the shop, for those who may see it; null where a cost is missing. */
  costMinor?: number | null;
}

/** A price as it is shown, its rows with what each rests on. */
export function priceShown({ price, works, locale, depositMinor, costMinor, ...saved }: Priced): PriceShown {
  const { currency, pricesIncludeTax } = price;
  const taxName = price.taxRegime ? taxRegime(price.taxRegime).taxName : "tax";
  return {
    title: `Price, ${taxName} ${pricesIncludeTax ? "included" : "added below"}`,
    currency,
    locale,
    rows: priceRows(price, works, locale),
    taxes: price.taxes.map((t) => ({
      key: `${t.category} ${t.rateBp}`,
      name: pricesIncludeTax ? `of which ${t.name}` : t.name,
      minor: t.taxMinor,
    })),
    grossMinor: price.grossMinor,
    depositMinor,
    build: priceBuild(price, costMinor ?? null),
    saved: savedText(saved, currency, locale),
  };
}

/** A price as it was printed. */
export const frozenPrice = (frozen: FrozenQuote): PriceShown =>
  priceShown({ ...frozen, price: frozen, works: frozen.works ?? [] });

/** The same without reasons: they are asked for. */
export const withoutReasons = ({ rows, ...price }: PriceShown): PriceShown => ({
  ...price,
  rows: rows.map(({ key, name, minor }) => ({ key, name, minor })),
});

function savedText(
  { savedMinutes, savedAgainst, savedMinor }: Pick<Priced, "savedMinutes" | "savedAgainst" | "savedMinor">,
  currency: string,
  locale: string,
): string {
  if (savedMinutes <= 0) return "";
  const how =
    savedAgainst === "visits"
      ? "One visit for all of it, not one for each work:"
      : "Opened once for all of it:";
  return `${how} ${minutesText(savedMinutes, "min", "h")} and ${moneyText(savedMinor, currency, locale)} already taken off.`;
}
