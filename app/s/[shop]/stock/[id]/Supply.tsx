import { dateText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import type { openLinesOf } from "@/lib/data/orders/list";
import type { PartView } from "@/lib/data/stock/parts";
import type { supplyOf } from "@/lib/data/stock/shelf";
import { unitPriceText } from "@/lib/domain/money/unitPrice";
import { ORDER_WORDS } from "@/lib/schemas/orders";
import { amountText } from "../amount";
import { AddInstead, DropInstead, OfferForm } from "./SupplyActs";

export interface SupplyProps {
  shop: string;
  part: PartView;
  supply: Awaited<ReturnType<typeof supplyOf>>;
  coming: Awaited<ReturnType<typeof openLinesOf>>;
  locale: string;
  currency: string;
  mayWrite: boolean;
  withCost: boolean;
}

const LINK = "inline-flex min-h-6 items-center font-semibold pointer-coarse:min-h-12";

/** What is on its way, who sells the part, and what does in its place. */
export function Supply({ shop, part, supply, coming, locale, currency, mayWrite, withCost }: SupplyProps) {
  const text = (milli: number) => amountText(milli, part.unit, locale);
  const acts = { shop, partId: part.id, code: part.code };
  return (
    <>
      {coming.length > 0 && (
        <Section title="On its way">
          <ul>
            {coming.map((line) => (
              <li
                key={line.id}
                className="flex flex-wrap items-baseline justify-between gap-x-4 border-hair border-b py-1.5"
              >
                <Link href={`/s/${shop}/stock/orders/${line.order.id}`} className={LINK}>
                  Order {line.order.number}
                </Link>
                <span className="text-[14px] text-soft">
                  {line.order.state === "draft"
                    ? ORDER_WORDS.draft
                    : line.dueOn
                      ? `due ${dateText(line.dueOn, locale)}`
                      : "no day given"}
                </span>
                <span className="font-mono">{text(line.openMilli)}</span>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <Section
        title="Who sells it"
        aside={mayWrite && <OfferForm {...acts} unit={part.unit} currency={currency} withCost={withCost} />}
      >
        {supply.suppliers.length === 0 && <p className="text-soft">Nobody is named yet.</p>}
        <ul>
          {supply.suppliers.map((row) => (
            <li key={row.id} className="border-hair border-b py-1.5">
              <div className="flex flex-wrap items-baseline justify-between gap-x-4">
                <Link href={`/s/${shop}/stock/suppliers/${row.supplier.id}`} className={LINK}>
                  {row.supplier.name}
                </Link>
                <span className="font-mono">
                  {row.costE4 === null ? "" : `${unitPriceText(row.costE4, currency, locale)} ${currency}`}
                </span>
              </div>
              <p className="text-[14px] text-soft">
                {[
                  row.usual ? "the usual one" : "",
                  row.code && `code ${row.code}`,
                  row.packMilli > 0 ? `packs of ${text(row.packMilli)}` : "",
                  row.leastMilli > 0 ? `at least ${text(row.leastMilli)}` : "",
                  (row.leadDays ?? row.supplier.leadDays) === null
                    ? ""
                    : `${row.leadDays ?? row.supplier.leadDays} days`,
                  row.pricedOn && `priced ${dateText(row.pricedOn, locale)}`,
                ]
                  .filter(Boolean)
                  .join(", ")}
              </p>
            </li>
          ))}
        </ul>
      </Section>
      <Section title="Does in its place" aside={mayWrite && <AddInstead {...acts} />}>
        {supply.substitutes.length === 0 && <p className="text-soft">Nothing noted.</p>}
        <ul>
          {supply.substitutes.map((other) => (
            <li key={other.id} className="flex flex-wrap items-baseline gap-x-4 border-hair border-b py-1.5">
              <Link href={`/s/${shop}/stock/${other.id}`} className={LINK}>
                {other.code}
              </Link>
              <span className="min-w-0 flex-1 text-[14px] text-soft">{other.note || other.name}</span>
              <span className="font-mono">{text(other.freeMilli)} free</span>
              {mayWrite && <DropInstead {...acts} otherId={other.id} otherCode={other.code} />}
            </li>
          ))}
        </ul>
      </Section>
    </>
  );
}
