import { notFound, redirect } from "next/navigation";
import { DateText } from "@/app/_ui/DateText";
import { Empty } from "@/app/_ui/Empty";
import { Facts } from "@/app/_ui/Facts";
import { Figure } from "@/app/_ui/Figure";
import { figureText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Opens } from "@/app/_ui/Opens";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { getBike } from "@/lib/data/bikes/bikes";
import { keptInstead } from "@/lib/data/common/merged";
import { openIntake } from "@/lib/data/intakes/get";
import { triedOn } from "@/lib/data/rides/tried";
import type { Reason } from "@/lib/domain/reason";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { type Interval, intervalFor, type Severity } from "@/lib/domain/tuning/severity";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { pathId } from "@/lib/gate/ids";
import { type OpenShop, open } from "@/lib/gate/open";
import { Photos } from "../../_photos/Photos";
import { RunAnswers } from "../../_runs/RunAnswers";
import { Jobs, Quotes } from "../../customers/History";
import { BeforeQuote } from "./BeforeQuote";
import { Carburettor } from "./Carburettor";
import { Settings } from "./Settings";
import { Tried } from "./Tried";

type Bike = NonNullable<Awaited<ReturnType<typeof getBike>>>;

const link = (href: string, text: string) => (
  <Link href={href} className="text-brass underline underline-offset-4">
    {text}
  </Link>
);

export default async function BikePage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("bike.read", slug);
  const [bike, onBench, intake, tried] = await Promise.all([
    getBike(shop, pathId(id)),
    benchBike(shop, pathId(id)),
    openIntake(shop.read, pathId(id)),
    triedOn(shop.read, pathId(id)),
  ]);
  if (!bike) {
    const merged = await keptInstead(shop.read, "bike", pathId(id));
    return merged ? redirect(`/s/${slug}/bikes/${merged.keptId}`) : notFound();
  }
  const { locale, zone, currency } = shop.settings;
  const formats = { slug, locale, zone, currency };
  const home = `/s/${slug}/bikes/${bike.id}`;
  return (
    <>
      <PageHead
        of={shop.name}
        title={`${bike.modelCard.make} ${bike.modelCard.model}`}
        sub={
          <>
            {[bike.year, bike.plate].filter(Boolean).map((text) => `${text} · `)}
            {link(`/s/${slug}/customers/${bike.customer.id}`, bike.customer.name)}
          </>
        }
        actions={
          <>
            {shop.can("bike.write") && <LinkButton href={`${home}/edit`}>Change</LinkButton>}
            {shop.can("sheet.write") && (
              <LinkButton href={`${home}/sheets/new?kind=asFound`}>Record as found</LinkButton>
            )}
            <LinkButton href={`${home}/life`}>Its life</LinkButton>
            <LinkButton href={`${home}/wear`}>Wear and readings</LinkButton>
            {shop.can("bench.use") && <LinkButton href={`${home}/recommend`}>Recommended setting</LinkButton>}
            {shop.can("job.write") && (
              <LinkButton href={`/s/${slug}/jobs/new?bike=${bike.id}`}>Open a job</LinkButton>
            )}
            {shop.can("quote.write") && (
              <LinkButton href={`/s/${slug}/quotes/new?bike=${bike.id}`} tone="main">
                New quote
              </LinkButton>
            )}
          </>
        }
      />
      {bike.complaint && (
        <p className="mb-5 max-w-prose">
          <strong>Complaint.</strong> <span className="whitespace-pre-line">{bike.complaint}</span>
        </p>
      )}
      <div className="grid gap-x-10 lg:grid-cols-[minmax(0,3fr)_minmax(0,2fr)]">
        <Settings home={home} bike={bike} locale={locale} zone={zone} mayRecord={shop.can("sheet.write")} />
        <div>
          <BeforeQuote
            home={home}
            intake={intake}
            mayRecord={shop.can("intake.write")}
            locale={locale}
            zone={zone}
          />
          <RunAnswers shop={shop} bikeId={bike.id} answers={bike.runAnswers} toJobs />
          <Due bike={bike} shop={shop} />
          <About bike={bike} shop={shop} />
          <Photos shop={shop} noun="bike" id={bike.id} of={`the ${bike.modelCard.model}`}>
            <p className="mt-2">{link(`${home}/pairs`, "Photos in pairs, before and after")}</p>
          </Photos>
        </div>
      </div>
      {onBench && shop.can("bench.use") && <Carburettor bike={onBench} slug={slug} locale={locale} />}
      <Tried tried={tried} slug={slug} locale={locale} zone={zone} />
      <Jobs formats={formats} jobs={bike.jobs} />
      <Quotes formats={formats} quotes={bike.quotes} />
    </>
  );
}

function Due({ bike, shop }: { bike: Bike; shop: OpenShop }) {
  const { locale, zone, units } = shop.settings;
  const today = dayOf(shop.now.getTime(), zone);
  return (
    <Section title="Due">
      {bike.followUps.length === 0 && <p className="text-soft">Nothing is due.</p>}
      <ul>
        {bike.followUps.map((due) => {
          const now =
            due.dueOn <= today ||
            (due.dueKm !== null && bike.odometerKm !== null && due.dueKm <= bike.odometerKm);
          return (
            <li
              key={due.id}
              className="flex flex-wrap items-baseline justify-between gap-x-4 border-hair border-b py-2"
            >
              <span>{due.what}</span>
              <span className="flex flex-wrap items-baseline gap-x-3">
                <DateText date={due.dueOn} locale={locale} />
                {due.dueKm !== null && (
                  <Figure
                    value={shownDistance(due.dueKm, units)}
                    unit={distanceUnit(units)}
                    locale={locale}
                  />
                )}
                {due.kmWhy && <span className="text-[14px] text-soft">{due.kmWhy}</span>}
                {now && (
                  <State shape="triangle" tone="oxide">
                    now
                  </State>
                )}
              </span>
            </li>
          );
        })}
      </ul>
    </Section>
  );
}

/** The card's service interval as the bike's use shortens it; with nothing to explain on the dry road. */
function serviceOf(roadKm: number, severity: Severity | null): Interval {
  const { km, because } = intervalFor(roadKm, severity);
  const road = { fact: `${roadKm} km on the dry road`, from: "model card" };
  return { km, because: because.length > 0 ? [road, ...because] : [] };
}

function About({ bike, shop }: { bike: Bike; shop: OpenShop }) {
  const { locale, units } = shop.settings;
  const { modelCard } = bike;
  const service = modelCard.serviceKm === null ? null : serviceOf(modelCard.serviceKm, bike.severity);
  const distance = (km: number, because: readonly Reason[] = []) => {
    const figure = <Figure value={shownDistance(km, units)} unit={distanceUnit(units)} locale={locale} />;
    return because.length > 0 ? (
      <Opens name="Service every" because={because}>
        {figure}
      </Opens>
    ) : (
      figure
    );
  };
  const rows = [
    { name: "Odometer", value: bike.odometerKm === null ? null : distance(bike.odometerKm) },
    {
      name: "Model card",
      value: link(`/s/${shop.slug}/bikes/cards/${modelCard.id}`, `${modelCard.make} ${modelCard.model}`),
    },
    { name: "Engine", value: <Figure value={modelCard.displacementCc} unit="cc" locale={locale} /> },
    {
      name: "Used in",
      value:
        bike.severity && `${bike.severity.name}, intervals ÷ ${figureText(bike.severity.factor, locale)}`,
    },
    { name: "Service every", value: service && distance(service.km, service.because) },
    {
      name: "Service at least every",
      value: modelCard.serviceMonths === null ? null : `${modelCard.serviceMonths} months`,
    },
    ...bike.carburettors.map((each) => ({
      name: each.label,
      value: each.marking || modelCard.carburettorType,
      mono: each.marking !== "",
    })),
    { name: "Frame number", value: bike.frameNumber, mono: true },
    { name: "Colour", value: bike.colour },
    { name: "Notes", value: bike.notes && <span className="whitespace-pre-line">{bike.notes}</span> },
  ].filter((row) => row.value);
  return (
    <Section title="The bike">
      <Facts rows={rows} />
      {rows.length < 3 && <Empty title="Little is known of it yet." />}
    </Section>
  );
}
