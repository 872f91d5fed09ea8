import { DateText } from "@/app/_ui/DateText";
import { Form } from "@/app/_ui/Form";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { Shown } from "@/app/_ui/Shown";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { feedSince, shopFeedSince } from "@/lib/data/bookings/feed";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { type OpenShop, open } from "@/lib/gate/open";
import { endCalendar, endShopCalendar, makeCalendar, makeShopCalendar } from "../actions";

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
      {shop.can("booking.write") && <WholeShop shop={shop} />}
    </>
  );
}

/** The address under which everybody's bookings stand. */
async function WholeShop({ shop }: { shop: OpenShop }) {
  const since = await shopFeedSince(shop);
  const { locale, zone } = shop.settings;
  return (
    <Section title="The whole shop">
      <p className="mb-3 max-w-[640px]">
        One address with the bookings of every bay and person, for a screen on the wall or the desk’s
        calendar. Whoever has it can read them all; a new one ends the old one.
      </p>
      {since && (
        <p className="mb-3">
          There is one since <DateText date={dayOf(since.getTime(), zone)} locale={locale} />.
        </p>
      )}
      <div className="flex flex-wrap gap-3">
        <Form action={makeShopCalendar} shop={shop.slug} label="Make the shop's address">
          <SubmitButton tone="second">
            {since ? "Make the shop a new address" : "Make the shop an address"}
          </SubmitButton>
          <Shown
            name="address"
            before="Give this to the calendar program that is to follow the shop. It is shown only now."
          />
        </Form>
        {since && (
          <Form action={endShopCalendar} shop={shop.slug} label="End the shop's address">
            <SubmitButton tone="quiet">End the shop’s address</SubmitButton>
          </Form>
        )}
      </div>
    </Section>
  );
}
