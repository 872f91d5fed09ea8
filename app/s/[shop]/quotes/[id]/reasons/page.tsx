import { notFound } from "next/navigation";
import { priceRows } from "@/app/_documents/priceRows";
import { settingRows } from "@/app/_documents/settingRows";
import { LinkButton } from "@/app/_ui/LinkButton";
import { moneyText } from "@/app/_ui/moneyText";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { getQuote } from "@/lib/data/quotes/get";
import type { Reason } from "@/lib/domain/reason";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { systemOf } from "@/lib/schemas/bench";
import { ConditionsForm } from "../ConditionsForm";
import { conditionsShown } from "../shown/conditions";

/** What every figure of a draft rests on, in one list: for whoever has no scripts, and to read it through. */
export default async function QuoteReasons({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("quote.read", slug);
  const quote = await getQuote(shop, pathId(id), { margin: false });
  if (!quote?.draft) notFound();
  const { price, target } = quote.draft;
  const { locale } = quote.terms;
  return (
    <>
      <PageHead
        of={shop.name}
        title={`What quote ${quote.number} rests on`}
        actions={<LinkButton href={`/s/${slug}/quotes/${quote.id}`}>To the quote</LinkButton>}
      />
      <div className="max-w-[46rem]">
        <Section title="Price">
          {priceRows(price, quote.works, locale).map((row) => (
            <Figure
              key={row.key}
              name={row.name}
              value={moneyText(row.minor, price.currency, locale)}
              because={row.because}
            />
          ))}
        </Section>
        {shop.can("quote.write") && (
          <Section title="Where and when it is ridden">
            <ConditionsForm
              slug={slug}
              hidden={{ id: String(quote.id), version: String(quote.version) }}
              air={conditionsShown(quote, systemOf(shop.settings.units))}
            />
          </Section>
        )}
        {settingRows(target.sheet, locale).map(({ key, rows }) => (
          <Section key={key} title={`Settings that change, ${key}`}>
            {rows.map((row) => (
              <Figure key={row.key} name={row.name} value={`${row.from} → ${row.to}`} because={row.because} />
            ))}
          </Section>
        ))}
      </div>
    </>
  );
}

function Figure({ name, value, because }: { name: string; value: string; because: readonly Reason[] }) {
  return (
    <>
      <h3 className="mt-3 flex justify-between gap-4 font-semibold">
        {name} <span className="font-mono">{value}</span>
      </h3>
      <ul className="text-[15px]">
        {because.map(({ fact, from, effect, firmness }) => (
          <li
            key={`${fact} ${from} ${effect}`}
            className="flex justify-between gap-4 border-hair border-b py-1"
          >
            <span>
              {fact}{" "}
              <span className="text-soft">
                ({[from, firmness === "starting point" ? "judged" : firmness].filter(Boolean).join(", ")})
              </span>
            </span>
            <span className="font-mono">{effect}</span>
          </li>
        ))}
      </ul>
    </>
  );
}
