import { notFound, redirect } from "next/navigation";
import type { ReactNode } from "react";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Opens } from "@/app/_ui/Opens";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { Suggestions } from "@/app/_ui/Suggestions";
import { keptInstead } from "@/lib/data/common/merged";
import { oneTaps } from "@/lib/data/jobs/takePart";
import { openLinesOf } from "@/lib/data/orders/list";
import { usagePerMonth } from "@/lib/data/stock/figures";
import { suggestPoint } from "@/lib/data/stock/habits";
import { binsToOffer } from "@/lib/data/stock/lying";
import { getPart } from "@/lib/data/stock/parts";
import { sameThreadFor } from "@/lib/data/stock/sameThread";
import { supplyOf } from "@/lib/data/stock/shelf";
import { fetchOrder } from "@/lib/domain/stock/bins";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { SameThread } from "../../_parts/SameThread";
import { Photos } from "../../_photos/Photos";
import { amountText } from "../amount";
import { StockLevel } from "../StockLevel";
import { UsageChart } from "../UsageChart";
import { MergedFrom } from "./MergedFrom";
import { Moves, moveReasons } from "./Moves";
import { PartActs } from "./PartActs";
import { PartFacts } from "./PartFacts";
import { PartNeedle } from "./PartNeedle";
import { PartScrew } from "./PartScrew";
import { Replaced } from "./Replaced";
import { Reservations } from "./Reservations";
import { Supply } from "./Supply";
import { WhereItLies } from "./WhereItLies";

export default async function PartPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("stock.read", slug);
  const part = await getPart(shop, pathId(id), shop.can("margin.read"));
  if (!part) notFound();
  // The ledger of a part that was merged is its own: `?ledger=own` shows it, any other link leads to the kept one.
  const merged = part.active ? null : await keptInstead(shop.read, "part", part.id);
  if (merged && (await searchParams).ledger !== "own") redirect(`/s/${slug}/stock/${merged.keptId}`);
  const withCost = shop.can("margin.read");
  const [policy, supply, coming, months, bins, taps, instead] = await Promise.all([
    suggestPoint(shop, part),
    supplyOf(shop, part.id, withCost),
    openLinesOf(shop, part.id),
    usagePerMonth(shop, part.id),
    binsToOffer(shop.read),
    shop.can("stock.use") ? oneTaps(shop, [part]) : null,
    sameThreadFor(shop.read, [{ key: "own", partId: part.id, neededMilli: 1 }]),
  ]);
  const { locale, zone, currency } = shop.settings;
  const text = (milli: number) => amountText(milli, part.unit, locale);
  const mayWrite = shop.can("stock.write");
  const mayUse = shop.can("stock.use");
  const acts = {
    shop: slug,
    partId: part.id,
    code: part.code,
    unit: part.unit,
    bin: part.bin,
    lying: fetchOrder(part.bins, part.bin).map((one) => ({ bin: one.bin, text: text(one.onHandMilli) })),
    currency,
    mayWrite,
    mayUse,
    withCost,
  };
  return (
    <>
      <Suggestions id="bins" values={bins} />
      <PageHead
        of={shop.name}
        title={part.code}
        sub={part.name}
        state={
          part.below && (
            <State shape="triangle" tone="oxide">
              below its point
            </State>
          )
        }
        actions={<PartActs {...acts} where="head" />}
      />
      <Replaced slug={slug} part={part} text={text} />
      <div className="grid gap-x-8 lg:grid-cols-[minmax(0,3fr)_minmax(0,2fr)]">
        <div className="min-w-0">
          <Section title="How much there is">
            <dl className="mb-3 flex flex-wrap gap-x-8 gap-y-2">
              <Amount name="on hand">
                <Opens
                  name={`On hand, ${part.code}`}
                  because={moveReasons(part, locale, zone)}
                  firmness="firm"
                >
                  {text(part.onHandMilli)}
                </Opens>
              </Amount>
              <Amount name="reserved">{text(part.reservedMilli)}</Amount>
              <Amount name="free">{text(part.freeMilli)}</Amount>
              <Amount name="on order">{text(part.onOrderMilli)}</Amount>
            </dl>
            <StockLevel {...part} locale={locale} />
            <SameThread jets={instead.own} slug={slug} locale={locale} />
          </Section>
          <WhereItLies shop={slug} part={part} bins={bins} locale={locale} mayWrite={mayWrite} />
          <Reservations
            shop={slug}
            part={part}
            locale={locale}
            mayWrite={mayWrite}
            taps={taps?.get(part.id) ?? []}
          />
          {months.some((month) => month.usedMilli > 0) && (
            <Section title="Used per month">
              <UsageChart
                code={part.code}
                unit={part.unit}
                locale={locale}
                pointMilli={part.pointMilli || (policy?.pointMilli ?? 0)}
                months={months}
              />
            </Section>
          )}
          <Moves
            shop={slug}
            part={part}
            locale={locale}
            zone={zone}
            currency={currency}
            mayWrite={mayWrite}
          />
        </div>
        <div className="min-w-0">
          <Section
            title="The part"
            aside={
              mayWrite && (
                <LinkButton href={`/s/${slug}/stock/${part.id}/edit`} tone="quiet">
                  Change
                </LinkButton>
              )
            }
          >
            <PartFacts part={part} locale={locale} currency={currency} />
            <MergedFrom shop={shop} partId={part.id} />
          </Section>
          {part.kind === "screw" && <PartScrew shop={shop} partId={part.id} mayWrite={mayWrite} />}
          {part.kind === "needle" && <PartNeedle shop={shop} partId={part.id} mayWrite={mayWrite} />}
          <Photos shop={shop} noun="part" id={part.id} of={part.code} />
          <Supply
            shop={slug}
            part={part}
            supply={supply}
            coming={coming}
            locale={locale}
            currency={currency}
            mayWrite={mayWrite}
            withCost={withCost}
          />
          {policy && (
            <Section title="When to order">
              <p>
                Order{" "}
                <Opens name="Order quantity" because={policy.because} firmness="starting point">
                  {text(policy.orderMilli)}
                </Opens>{" "}
                when free stock falls to{" "}
                <Opens name="Suggested point" because={policy.because} firmness="starting point">
                  {text(policy.pointMilli)}
                </Opens>
                .
              </p>
              <p className="text-[14px] text-soft">By {policy.method}, from a year of its uses.</p>
            </Section>
          )}
          {(mayWrite || mayUse) && (
            <Section title="In the bin">
              <div className="flex flex-wrap gap-2.5">
                <PartActs {...acts} where="bin" />
                {mayWrite && (
                  <>
                    <LinkButton href={`/s/${slug}/stock/${part.id}/count`}>Count</LinkButton>
                    {part.sizeMilli === null && (
                      <LinkButton href={`/s/${slug}/stock/${part.id}/split`}>Open an assortment</LinkButton>
                    )}
                    <LinkButton href={`/api/s/${slug}/stock/labels?ids=${part.id}`} download>
                      Label
                    </LinkButton>
                  </>
                )}
              </div>
            </Section>
          )}
        </div>
      </div>
    </>
  );
}

function Amount({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div>
      <dt className="text-[13px] text-soft">{name}</dt>
      <dd className="font-mono text-[22px]">{children}</dd>
    </div>
  );
}
