import { DateText } from "@/app/_ui/DateText";
import { figureText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Opens } from "@/app/_ui/Opens";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { listLate } from "@/lib/data/bookings/late";
import { jobsToSwitchTo } from "@/lib/data/jobs/time/breaks";
import { firstSteps } from "@/lib/data/today/firstSteps";
import { myNextJob } from "@/lib/data/today/mine";
import { getToday, type TodayView } from "@/lib/data/today/today";
import { open } from "@/lib/gate/open";
import { Bays } from "./_today/Bays";
import { Drawer } from "./_today/Drawer";
import { FirstSteps } from "./_today/FirstSteps";
import { MyClock } from "./_today/MyClock";
import { MyNextJob } from "./_today/MyNextJob";
import { NeedsAHand } from "./_today/NeedsAHand";
import { NotHereYet } from "./_today/NotHereYet";
import { OnNow } from "./_today/OnNow";

const ROLE = { owner: "Owner", desk: "Desk", tuner: "Tuner", books: "Books" } as const;

export default async function Today({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("today.read", slug);
  const [today, late, mine, steps, others] = await Promise.all([
    getToday(shop, {
      quotes: shop.can("quote.write"),
      invoices: shop.can("invoice.read"),
      stock: shop.can("stock.use") || shop.can("stock.write"),
      closing: shop.can("day.close"),
    }),
    listLate(shop),
    shop.can("job.work") ? myNextJob(shop) : null,
    shop.can("shop.write") ? firstSteps(shop, shop.settings) : null,
    shop.can("job.work") ? jobsToSwitchTo(shop) : [],
  ]);
  const { locale } = shop.settings;
  // Bays without a booking are not worth the first screen.
  const empty = today.bookings.length === 0;
  return (
    <>
      <PageHead
        of={shop.name}
        named="Today"
        title={<DateText date={today.day} locale={locale} look="weekday" />}
        sub={<Air air={today.air} locale={locale} units={shop.settings.units} />}
        actions={<span className="text-soft max-sm:hidden">{ROLE[shop.role]}</span>}
      />
      {steps && <FirstSteps steps={steps} slug={slug} />}
      {mine && <MyNextJob mine={mine} base={`/s/${slug}`} locale={locale} zone={shop.settings.zone} />}
      {!empty && <Bays today={today} base={`/s/${slug}`} />}
      {shop.can("job.work") && (
        <MyClock running={today.running} breaks={today.breaks} others={others} slug={slug} />
      )}
      <OnNow
        running={today.running}
        breaks={today.breaks}
        base={`/s/${slug}`}
        locale={locale}
        zone={shop.settings.zone}
      />
      <NotHereYet late={late} shop={shop} />
      <div className="mt-7 grid gap-x-8 lg:grid-cols-2">
        <Section title="Needs a hand now">
          <NeedsAHand today={today} shop={shop} />
          {empty && (
            <p className="mt-4 flex flex-wrap items-center gap-x-4 text-soft">
              Nothing is booked today.{" "}
              <LinkButton tone="quiet" href={`/s/${slug}/bookings`}>
                See the bookings
              </LinkButton>
            </p>
          )}
        </Section>
        {today.drawer && (
          <Section title="Drawer">
            <Drawer
              drawer={today.drawer}
              short={today.short}
              base={`/s/${slug}`}
              mayOrder={shop.can("stock.write")}
            />
          </Section>
        )}
      </div>
    </>
  );
}

/** The air the shop most likely has, said to be assumed: nobody measured it. */
function Air({ air, locale, units }: { air: TodayView["air"]; locale: string; units: string }) {
  const percent = Math.round((air.ratio - 1) * 100);
  const against =
    percent === 0 ? "as dense as on" : `${Math.abs(percent)} % ${percent < 0 ? "thinner" : "denser"} than`;
  const imperial = units === "imperial";
  const heat = imperial
    ? `${Math.round(air.temperatureC * 1.8 + 32)} °F`
    : `${Math.round(air.temperatureC)} °C`;
  const pressure = imperial
    ? `${figureText(air.pressurePa / 3386.389, locale, 2)} inHg`
    : `${Math.round(air.pressurePa / 100)} hPa`;
  return (
    <>
      Air, assumed for the month:{" "}
      <Opens name="Air, assumed" because={air.because} firmness={air.firmness}>
        {heat}, {pressure}
      </Opens>
      , {against} the bench day
    </>
  );
}
