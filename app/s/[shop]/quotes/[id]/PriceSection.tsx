import { Facts } from "@/app/_ui/Facts";
import { Money } from "@/app/_ui/Money";
import { moneyText } from "@/app/_ui/moneyText";
import { Opens } from "@/app/_ui/Opens";
import { PriceBar } from "@/app/_ui/PriceBar";
import { Section } from "@/app/_ui/Section";
import type { PriceShown } from "./shown/price";

interface Props {
  price: PriceShown;
  /** Address that answers what a row rests on, as far as the row; where the rows do not have it. */
  why?: string | undefined;
}

/** The price: every figure opens to what it rests on, and all of it as one bar. */
export function PriceSection({ price, why }: Props) {
  const { currency, locale, rows, taxes, grossMinor, depositMinor, build, saved } = price;
  const money = (minor: number, credit = false) => (
    <Money minor={minor} currency={currency} locale={locale} credit={credit} />
  );
  return (
    <Section title={price.title}>
      <Facts
        rows={[
          ...rows.map(({ key, name, minor, because }) => ({
            key,
            name,
            value: (
              <Opens name={name} because={because ?? `${why}&price=${encodeURIComponent(key)}`}>
                {money(minor, true)}
              </Opens>
            ),
          })),
          ...taxes.map(({ key, name, minor }) => ({ key, name, value: money(minor) })),
          { key: "total", name: `Total ${currency}`, value: money(grossMinor), strong: true },
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
      {saved && <p className="mt-2 text-[15px] text-pine">{saved}</p>}
    </Section>
  );
}
