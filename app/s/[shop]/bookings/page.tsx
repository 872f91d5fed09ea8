import { dateText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { getDay } from "@/lib/data/bookings/list";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { open } from "@/lib/gate/open";
import { BookingsQuerySchema } from "@/lib/schemas/bookings";
import { BookedList } from "./BookedList";
import { BookingFilters } from "./BookingFilters";
import { DayBoard } from "./DayBoard";
import { EmptyDay } from "./EmptyDay";
import { Week } from "./Week";
import { loadText, WeekRule } from "./WeekRule";

export default async function BookingsPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("booking.read", slug);
  const place = BookingsQuerySchema.parse(await searchParams);
  const view = await getDay(shop, place.day, { bay: place.bay, person: place.person });
  const kept = new URLSearchParams();
  if (place.bay) kept.set("bay", String(place.bay));
  if (place.person) kept.set("person", String(place.person));
  const hrefOf = (day: string) => {
    const query = new URLSearchParams(kept);
    if (day !== view.today) query.set("day", day);
    const text = query.toString();
    return `/s/${slug}/bookings${text && `?${text}`}`;
  };
  const mayBook = shop.can("booking.write");
  const book = mayBook && (
    <>
      <LinkButton href={`/s/${slug}/bookings/in`}>Book a bike in</LinkButton>
      <LinkButton href={`/s/${slug}/bookings/new`} tone="main">
        Book a job
      </LinkButton>
    </>
  );
  const empty = view.bookings.length === 0;
  return (
    <>
      <PageHead
        of={shop.name}
        title={dateText(view.day, view.locale, "weekday")}
        sub={view.day === view.today ? "today" : undefined}
        actions={
          <>
            <LinkButton href={hrefOf(dayAfter(view.day, -1))} label="The day before">
              Before
            </LinkButton>
            {view.day !== view.today && <LinkButton href={hrefOf(view.today)}>Today</LinkButton>}
            <LinkButton href={hrefOf(dayAfter(view.day))} label="The day after">
              After
            </LinkButton>
            <LinkButton href={`/s/${slug}/bookings/calendar`} tone="quiet">
              Your calendar
            </LinkButton>
            {book}
          </>
        }
      />
      <BookingFilters
        path={`/s/${slug}/bookings`}
        day={place.day}
        place={place}
        bays={view.bays}
        people={view.people}
      />
      {view.closed !== null && <Note title="Closed.">{view.closed}</Note>}
      {view.away.length > 0 && <Note title="Away:">{view.away.join(", ")}</Note>}
      {empty ? (
        <EmptyDay
          view={view}
          hrefOf={hrefOf}
          narrowed={Boolean(place.bay || place.person)}
          mayBook={mayBook}
        />
      ) : (
        <>
          <Section title="By bay and by person">
            {view.load && <p className="mb-2">{loadText(view.load)}</p>}
            <DayBoard shop={slug} view={view} place={place} mayMove={mayBook} />
          </Section>
          <Section title="In and out on this day">
            <BookedList shop={slug} view={view} bookings={view.bookings} />
          </Section>
        </>
      )}
      <Section
        title="The week"
        aside={
          <span className="flex gap-4">
            <LinkButton href={hrefOf(dayAfter(view.monday, -7))} tone="quiet">
              Week before
            </LinkButton>
            <LinkButton href={hrefOf(dayAfter(view.monday, 7))} tone="quiet">
              Week after
            </LinkButton>
          </span>
        }
      >
        {view.days.some((one) => one.bookings.length > 0) && <WeekRule view={view} hrefOf={hrefOf} />}
        <Week shop={slug} view={view} hrefOf={hrefOf} />
      </Section>
    </>
  );
}
