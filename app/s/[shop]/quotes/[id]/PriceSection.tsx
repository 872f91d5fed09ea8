import { Facts } from "@/app/_ui/Facts";
import { minutesText, moneyText } from "@/app/_ui/format";
import { Money } from "@/app/_ui/Money";
import { Opens } from "@/app/_ui/Opens";
import { PriceBar } from "@/app/_ui/PriceBar";
import { Section } from "@/app/_ui/Section";
import type { PricedQuote, PriceLine } from "@/lib/domain/pricing/facts";
import { byWork } from "@/lib/domain/quoting/byWork";
import type { Reason } from "@/lib/domain/reason";
import { taxRegime } from "@/lib/domain/tax/rates";
import { priceBuild } from "./priceBuild";

type Price = Pick<
  PricedQuote,
  "currency" | "pricesIncludeTax" | "taxes" | "netMinor" | "taxMinor" | "grossMinor"
> & {
  readonly taxRegime?: string | undefined;
  readonly lines: readonly Omit<PriceLine, "costMinor">[];
};

interface Props {
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

/** The price: every figure opens to what it rests on, and all of it as one bar. */
export function PriceSection({
  price,
  works,
  savedMinutes,
  savedAgainst,
  savedMinor,
  depositMinor,
  locale,
  costMinor,
}: Props) {
  const { currency, lines, pricesIncludeTax } = price;
  const money = (minor: number, credit = false) => (
    <Money minor={minor} currency={currency} locale={locale} credit={credit} />
  );
  const row = (key: string, name: string, minor: number, because: readonly Reason[]) => ({
    key,
    name,
    value: (
      <Opens name={name} because={because}>
        {money(minor, true)}
      </Opens>
    ),
  });
  // Of several works each is one row, which opens to its lines.
  const own = lines.some((l) => l.work !== undefined) ? byWork(works, lines) : [];
  const worked = own.flatMap(({ work, lines: of }) => {
    const settled = of.filter((l) => !l.unsettled);
    return work && settled.length > 0
      ? [
          row(
            `work ${work.key}`,
            work.name,
            settled.reduce((sum, l) => sum + l.shownMinor, 0),
            settled.map((l) => ({
              fact: l.kind === "part" ? `${l.quantityMilli / 1000} × ${l.name}` : nameOf(l),
              from: l.because[0] ? `${l.because[0].fact}, ${l.because[0].from}` : l.key,
              effect: moneyText(l.shownMinor, currency, locale),
            })),
          ),
        ]
      : [];
  });
  const shared = own.length > 0 ? (own.find(({ work }) => !work)?.lines ?? []) : lines;
  const parts = shared.filter((l) => l.kind === "part" && !l.unsettled);
  // What is charged when it is fitted stands by itself: nobody may miss it.
  const open = lines.filter((l) => l.unsettled).map((l) => row(l.key, l.name, l.shownMinor, l.because));
  const partReasons = parts.map((l) => ({
    fact: `${l.quantityMilli / 1000} × ${l.name}`,
    from: l.because[0] ? `${l.because[0].fact}, ${l.because[0].from}` : l.key,
    effect: moneyText(l.shownMinor, currency, locale),
  }));
  const other = shared
    .filter((l) => l.kind !== "part")
    .map((l) => row(l.key, nameOf(l), l.shownMinor, l.because));
  const at = shared.filter((l) => l.kind === "labour").length;
  const partRow =
    parts.length > 0
      ? [
          row(
            "parts",
            `Parts, ${parts.length} ${parts.length === 1 ? "line" : "lines"}`,
            parts.reduce((sum, l) => sum + l.shownMinor, 0),
            partReasons,
          ),
        ]
      : [];
  const build = priceBuild(price, costMinor ?? null);
  const taxName = price.taxRegime ? taxRegime(price.taxRegime).taxName : "tax";
  const taxes = price.taxes.map((t) => ({
    key: `${t.category} ${t.rateBp}`,
    name: pricesIncludeTax ? `of which ${t.name}` : t.name,
    value: money(t.taxMinor),
  }));
  return (
    <Section title={`Price, ${taxName} ${pricesIncludeTax ? "included" : "added below"}`}>
      <Facts
        rows={[
          ...worked,
          ...other.slice(0, at),
          ...partRow,
          ...open,
          ...other.slice(at),
          ...taxes,
          { key: "total", name: `Total ${currency}`, value: money(price.grossMinor), strong: true },
          ...(depositMinor > 0
            ? [{ key: "deposit", name: "Deposit when accepted", value: money(depositMinor) }]
            : []),
        ]}
      />
      {build && (
        <div className="mt-3">
          <PriceBar
            title="What the price is made of"
            description={`Two rows of one length. ${build.map(({ name, pieces }) => `${name}: ${pieces.map((p) => `${p.label.toLowerCase()} ${moneyText(p.minor, currency, locale)}`).join(", ")}.`).join(" ")}`}
            rows={build}
            currency={currency}
            locale={locale}
          />
        </div>
      )}
      {savedMinutes > 0 && (
        <p className="mt-2 text-[15px] text-pine">
          {savedAgainst === "visits"
            ? "One visit for all of it, not one for each work:"
            : "Opened once for all of it:"}{" "}
          {minutesText(savedMinutes, "min", "h")} and {moneyText(savedMinor, currency, locale)} already taken
          off.
        </p>
      )}
    </Section>
  );
}

function nameOf(line: Omit<PriceLine, "costMinor">): string {
  return line.kind === "labour"
    ? `${line.name}, ${minutesText(Math.round((line.quantityMilli * 60) / 1000), "min", "h")}`
    : line.name;
}
