import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { getBooking } from "@/lib/data/bookings/list";
import { timeText, whenText } from "@/lib/data/bookings/words";
import { comesAt } from "@/lib/domain/schedule/late";
import { dayOf } from "@/lib/domain/schedule/localTime";
import type { OpenShop } from "@/lib/gate/open";
import { heardWhenItComes, itCameAfterAll, nobodyCame } from "../actions";

interface Props {
  shop: OpenShop;
  booking: NonNullable<Awaited<ReturnType<typeof getBooking>>>;
}

/** A bike that was to be here by now: when it comes after all, or that it did not come; and that this was said too soon. */
export function NotHere({ shop, booking }: Props) {
  if (!shop.can("intake.write")) return null;
  const { job, zone } = booking;
  const hidden = { id: String(booking.id), version: String(booking.version) };
  if (booking.noShowAt)
    return (
      <Section title="Did not come">
        <p className="mb-3">
          Its bay is free since {whenText(booking.noShowAt, booking)}. It counts on the customer’s page.
        </p>
        <div className="flex flex-wrap gap-3">
          <LinkButton href={`/s/${shop.slug}/bookings/${job ? `new?job=${job.id}` : "in"}`} tone="main">
            Book another time
          </LinkButton>
          <Form action={itCameAfterAll} shop={shop.slug} hidden={hidden} label="It came after all">
            <SubmitButton tone="second">It came after all</SubmitButton>
          </Form>
        </div>
      </Section>
    );
  const due = comesAt(booking);
  if (booking.state !== "held" || booking.hereAt || due > shop.now) return null;
  if (job && job.state !== "waiting" && job.state !== "booked") return null;
  const at = shop.now.getTime() + 3_600_000;
  return (
    <Section title="It has not come">
      <p className="mb-3">It was to be here {whenText(due, booking)}.</p>
      <Form
        action={heardWhenItComes}
        shop={shop.slug}
        hidden={hidden}
        label="It comes later"
        className="max-w-sm scroll-mt-4"
      >
        <div id="comes-later">
          <DateField
            name="comes"
            label="They called, it comes"
            kind="datetime-local"
            initial={`${dayOf(at, zone)}T${timeText(at, zone)}`}
          />
        </div>
        <SubmitButton tone="second">Keep that</SubmitButton>
      </Form>
      <Form action={nobodyCame} shop={shop.slug} hidden={hidden} label="It did not come" className="mt-5">
        <p id="did-not-come" className="mb-3">
          Its bay becomes free, it counts on the customer’s page, and they are written to with the next free
          times where they take letters.
        </p>
        <SubmitButton tone="danger">It did not come</SubmitButton>
      </Form>
    </Section>
  );
}
