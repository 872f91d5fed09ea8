import { DateText } from "@/app/_ui/DateText";
import { Form } from "@/app/_ui/Form";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { Shown } from "@/app/_ui/Shown";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { feedSince } from "@/lib/data/bookings/feed";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { open } from "@/lib/gate/open";
import { endCalendar, makeCalendar } from "../actions";

export default async function CalendarPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("booking.read", slug);
  const since = await feedSince(shop);
  const { locale, zone } = shop.settings;
  return (
    <>
      <PageHead of={shop.name} title="Your calendar" sub="your bookings in your own calendar program" />
      <Section title="Private address">
        <p className="mb-3 max-w-[640px]">
          A calendar program that follows this address shows the bookings that have you as their person, and
          keeps them up to date. Whoever has the address can read them: keep it to yourself, and make a new
          one if it got out.
        </p>
        {since && (
          <p className="mb-3">
            There is one since <DateText date={dayOf(since.getTime(), zone)} locale={locale} />. Its text is
            not kept here.
          </p>
        )}
        <div className="flex flex-wrap gap-3">
          <Form action={makeCalendar} shop={slug} label="Make a private address">
            <SubmitButton tone={since ? "second" : "main"}>
              {since ? "Make a new address" : "Make an address"}
            </SubmitButton>
            <Shown
              name="address"
              before="Give this to your calendar program as a calendar to follow. It is shown only now."
            />
          </Form>
          {since && (
            <Form action={endCalendar} shop={slug} label="End the private address">
              <SubmitButton tone="quiet">End it</SubmitButton>
            </Form>
          )}
        </div>
        {since && (
          <Note title="A new address">ends the old one: programs that follow it see nothing more.</Note>
        )}
      </Section>
    </>
  );
}
