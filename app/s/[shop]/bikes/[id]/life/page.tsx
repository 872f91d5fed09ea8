import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { figureText } from "@/app/_ui/format";
import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { bikeLife } from "@/lib/data/figures/bikeLife";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { OfBike } from "../OfBike";
import { KIND_WORDS, LifeStrip } from "./LifeStrip";

interface Props {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ over?: string }>;
}

/** All that is kept of a bike as one strip, by distance or by date, and the same as a table. */
export default async function BikeLife({ params, searchParams }: Props) {
  const [{ shop: slug, id }, asked] = await Promise.all([params, searchParams]);
  const shop = await open("bike.read", slug);
  const bike = await bikeLife(shop, pathId(id));
  if (!bike) notFound();
  const { locale, zone, units } = shop.settings;
  const home = `/s/${slug}/bikes/${bike.id}`;
  const events = bike.events.filter((event) => event.kind !== "photo" || shop.can("photo.read"));
  const over = asked.over === "distance" ? "distance" : "date";
  const unplaced = events.filter((event) => event.placedKm === null).length;
  const drawable = over === "date" ? events.length > 0 : unplaced < events.length;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Its life"
        sub={<OfBike home={home} bike={bike} />}
        actions={
          <LinkButton href={`${home}/life?over=${over === "date" ? "distance" : "date"}`}>
            {over === "date" ? "By distance" : "By date"}
          </LinkButton>
        }
      />
      {events.length === 0 && (
        <Empty
          title="Nothing is kept of it yet."
          text="Sheets, jobs, readings, rides, photos and parts turn up here."
        />
      )}
      {drawable && <LifeStrip events={events} over={over} locale={locale} zone={zone} units={units} />}
      {over === "distance" && unplaced > 0 && (
        <p className="mt-2 text-[15px] text-soft">
          {unplaced} {unplaced === 1 ? "entry has" : "entries have"} no distance: the odometer was not read
          before and after. A hollow mark lies between two readings.
        </p>
      )}
      {events.length > 0 && (
        <Section title="All of it" className="mt-6">
          <table className="ledger">
            <caption className="sr-only">The bike's life, the newest first</caption>
            <thead>
              <tr>
                <th scope="col">When</th>
                <th scope="col" data-align="end">
                  Odometer
                </th>
                <th scope="col">What</th>
                <th scope="col">Entry</th>
              </tr>
            </thead>
            <tbody>
              {events.toReversed().map((event, at) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: entries have no id of their own, and the table does not reorder
                <tr key={at}>
                  <td data-first="">
                    <Instant at={new Date(event.at).toISOString()} locale={locale} zone={zone} look="date" />
                  </td>
                  <td
                    data-name="Odometer"
                    data-align="end"
                    data-empty={event.placedKm === null ? "" : undefined}
                  >
                    {event.placedKm !== null && (
                      <span className="font-mono">
                        {event.estimated && "about "}
                        {figureText(shownDistance(event.placedKm, units), locale)} {distanceUnit(units)}
                      </span>
                    )}
                  </td>
                  <td data-name="What">{KIND_WORDS[event.kind]}</td>
                  <td data-name="Entry">
                    {event.jobId === null ? (
                      event.text
                    ) : (
                      <Link
                        href={`/s/${slug}/jobs/${event.jobId}`}
                        className="text-brass underline underline-offset-4"
                      >
                        {event.text}
                      </Link>
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Section>
      )}
    </>
  );
}
