import NextForm from "next/form";
import { minutesText } from "@/app/_ui/format";
import { NumberField } from "@/app/_ui/NumberField";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { pickBikes } from "@/lib/data/bikes/pick";
import { firstTimesFor, shopPeople } from "@/lib/data/bookings/times";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { pickCustomers } from "@/lib/data/customers/pick";
import { open } from "@/lib/gate/open";
import { BookInQuerySchema } from "@/lib/schemas/bookings";
import { offered, ownStart } from "../offered";
import { BookInForm } from "./BookInForm";

/** A bike booked in before anyone knows what it needs: whose it is, what for, how long, when. */
export default async function BookInPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const { minutes } = BookInQuerySchema.parse(await searchParams);
  const shop = await open("booking.write", slug);
  const { zone } = shop.settings;
  const [times, { bays, people }, bikes, customers] = await Promise.all([
    firstTimesFor(shop, minutes),
    shopPeople(shop),
    pickBikes(shop, "", MOST_NEWEST),
    pickCustomers(shop, "", MOST_NEWEST),
  ]);
  return (
    <>
      <PageHead of={shop.name} title="Book a bike in" sub="Before there is a quote or a job" />
      <Section title="How long">
        <NextForm
          action={`/s/${slug}/bookings/in`}
          className="flex max-w-[34rem] flex-wrap items-end gap-x-3"
        >
          <NumberField
            name="minutes"
            label="Minutes of work"
            initial={minutes}
            step={15}
            min={5}
            className="flex-1"
          />
          <SubmitButton tone="second" className="mb-4">
            Show the times
          </SubmitButton>
        </NextForm>
        <p className="text-soft">The times below are for {minutesText(minutes, "min", "h")} of work.</p>
      </Section>
      <BookInForm
        key={minutes}
        shop={slug}
        minutes={minutes}
        own={ownStart(times[0]?.startsAt ?? shop.now.getTime(), zone)}
        times={offered(times, shop.settings)}
        bays={bays}
        people={people}
        bikes={bikes.rows}
        customers={customers.rows}
      />
    </>
  );
}
