import { instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { LateBooking } from "@/lib/data/bookings/late";
import type { OpenShop } from "@/lib/gate/open";

/** Bikes that were to be here by now: each is here, comes later, or did not come. */
export function NotHereYet({ late, shop }: { late: readonly LateBooking[]; shop: OpenShop }) {
  if (late.length === 0) return null;
  const { locale, zone } = shop.settings;
  const base = `/s/${shop.slug}`;
  const mayAnswer = shop.can("intake.write");
  return (
    <Section title="Not here yet" className="mt-7">
      <ul>
        {late.map((one) => {
          const name = one.job ? `Job ${one.job.number}` : one.of.customer;
          const booking = `${base}/bookings/${one.id}`;
          return (
            <li
              key={one.id}
              className="grid gap-x-4 border-hair border-b py-3 sm:grid-cols-[8.25rem_minmax(0,1fr)]"
            >
              <State shape="triangle" tone="oxide">
                late
              </State>
              <div className="min-w-0">
                <p>
                  <strong>{name}</strong>{" "}
                  {[one.of.bike, one.job && one.of.customer, one.of.phone].filter(Boolean).join(" · ")}
                </p>
                <p className="text-soft">
                  {one.called ? "They said it comes" : "It was to come"}{" "}
                  {instantText(one.comesAt.toISOString(), locale, zone)}.
                </p>
                <p className="flex flex-wrap gap-x-4">
                  {mayAnswer ? (
                    <>
                      <LinkButton
                        tone="quiet"
                        href={`${base}/arrivals/new?booking=${one.id}`}
                        label={`Here now: ${name}`}
                      >
                        Here now
                      </LinkButton>
                      <LinkButton
                        tone="quiet"
                        href={`${booking}#comes-later`}
                        label={`Called, comes later: ${name}`}
                      >
                        Called, comes later
                      </LinkButton>
                      <LinkButton
                        tone="quiet"
                        href={`${booking}#did-not-come`}
                        label={`Did not come: ${name}`}
                      >
                        Did not come
                      </LinkButton>
                    </>
                  ) : (
                    <LinkButton tone="quiet" href={booking} label={`Open the booking: ${name}`}>
                      Open the booking
                    </LinkButton>
                  )}
                </p>
              </div>
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
