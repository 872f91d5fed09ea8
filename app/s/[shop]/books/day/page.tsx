import { DateText } from "@/app/_ui/DateText";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { listDays } from "@/lib/data/endOfDay/get";
import { getOpenDay, type OpenDay } from "@/lib/data/endOfDay/open";
import { open } from "@/lib/gate/open";
import { DayQuery } from "@/lib/schemas/endOfDay";
import { CashMove } from "./CashMove";
import { ClosedDays } from "./ClosedDays";
import { CountForm } from "./CountForm";
import { DrawerFacts } from "./DrawerFacts";
import { MoneyRows } from "./MoneyRows";
import { OtherDays } from "./OtherDays";
import { Takings } from "./Takings";

/** The day that is to be counted and closed, and those that were. */
export default async function DayPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("day.close", slug);
  const query = DayQuery.parse(await searchParams);
  const day = (await getOpenDay(shop, query.day)) ?? (query.day ? await getOpenDay(shop) : null);
  const list = await listDays(shop, query.after);
  const { locale, zone, currency } = shop.settings;
  const path = `/s/${slug}/books/day`;
  const look = { currency, locale };
  return (
    <>
      <PageHead
        of={shop.name}
        title="End of day"
        sub={day && <Span day={day} locale={locale} />}
        actions={
          <>
            {shop.can("export.run") && list.rows.length > 0 && (
              <LinkButton href={`/api/s/${slug}/days/csv`} download>
                Export CSV
              </LinkButton>
            )}
            {day && <CashMove shop={slug} day={day.day} today={day.today} currency={currency} />}
          </>
        }
      />
      {day ? (
        <>
          <OtherDays day={day} path={path} locale={locale} />
          <div className="grid gap-x-10 rail:grid-cols-[minmax(0,3fr)_minmax(0,2fr)]">
            <div className="min-w-0">
              <Section title="Takings">
                <Takings takings={day.takings} {...look} />
              </Section>
              <Section title="The drawer">
                <DrawerFacts {...look} {...day} cashMinor={cashOf(day)} />
              </Section>
            </div>
            <Section title="Count the drawer">
              <CountForm key={day.seen} shop={slug} {...countOf(day)} />
            </Section>
          </div>
          <Section title="Payments">
            <MoneyRows caption="Payments of the day" rows={day.money} slug={slug} zone={zone} {...look} />
          </Section>
        </>
      ) : (
        <Empty
          title="Today is closed."
          text="What comes in by cash from now on is tomorrow's. The next day is counted here."
        />
      )}
      <Section title="Closed days" id="closed">
        <ClosedDays list={list} path={path} after={query.after} zone={zone} {...look} />
      </Section>
    </>
  );
}

const cashOf = ({ takings }: OpenDay) => takings.find((one) => one.method === "cash")?.netMinor ?? 0;

const countOf = ({ day, seen, floatMinor, expectedMinor, cardMinor, ...rest }: OpenDay) => ({
  day,
  seen,
  floatMinor,
  expectedMinor,
  cardMinor,
  denominations: rest.denominations,
  currency: rest.currency,
  locale: rest.locale,
});

function Span({ day: { fromDay, day }, locale }: { day: OpenDay; locale: string }) {
  if (fromDay === day) return <DateText date={day} locale={locale} look="weekday" />;
  return (
    <>
      <DateText date={fromDay} locale={locale} /> to <DateText date={day} locale={locale} />
    </>
  );
}
