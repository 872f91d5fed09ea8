import NextForm from "next/form";
import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { minutesText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { firstTimes, jobToBook, listUnbooked, shopPeople } from "@/lib/data/bookings/times";
import { wishOfJob } from "@/lib/data/jobs/wishes";
import { askedId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { offered, ownStart } from "../offered";
import { BookForm } from "./BookForm";
import { Wish } from "./Wish";

export default async function NewBookingPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const query = await searchParams;
  const asked = askedId(query.job) ?? 0;
  const shop = await open("booking.write", slug);
  const jobs = await listUnbooked(shop);
  if (!asked)
    return (
      <>
        <PageHead
          of={shop.name}
          title="Book a job"
          actions={<LinkButton href={`/s/${slug}/bookings/in`}>Book a bike in without a job</LinkButton>}
        />
        {jobs.length === 0 ? (
          <Empty
            title="Every job has its time."
            text="A job comes from an accepted quote; it is booked from here or from its own page."
            action={<LinkButton href={`/s/${slug}/quotes`}>To the quotes</LinkButton>}
          />
        ) : (
          <NextForm action={`/s/${slug}/bookings/new`} className="max-w-[34rem]">
            <SelectField
              name="job"
              label="Which job"
              options={jobs.map((job) => ({
                value: String(job.id),
                label: `${job.number} ${job.title}, ${job.customer.name}`,
              }))}
            />
            <SubmitButton size="act">Show the first times</SubmitButton>
          </NextForm>
        )}
      </>
    );
  const job = await jobToBook(shop, asked);
  if (!job) notFound();
  const { zone } = shop.settings;
  const wish = await wishOfJob(shop, asked);
  const [{ times, minutes, grades, cannot, unknown }, { bays, people }] = await Promise.all([
    firstTimes(shop, asked, 6, query.wish === "aside" ? null : wish),
    shopPeople(shop),
  ]);
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Book job ${job.number}`}
        sub={`${job.bike.modelCard.make} ${job.bike.modelCard.model}, ${job.customer.name}, ${minutesText(minutes, "min", "h")} of work`}
      />
      {wish && <Wish wish={wish} aside={query.wish === "aside"} jobId={job.id} shop={shop} />}
      {unknown.length > 0 && (
        <Note title="Nobody knows when these come:">
          {unknown.join(", ")}. The times below do not wait for them: give the part its days to arrive, or
          leave room.
        </Note>
      )}
      {cannot.length > 0 && (
        <Note title={`${grades.join(" and ")}:`}>
          {times.length === 0 ? "Nobody who works on bikes does this" : `Not offered: ${cannot.join(", ")}`}.
          Shop &gt; Bays and hours says who works at which grade.
        </Note>
      )}
      <BookForm
        shop={slug}
        jobId={job.id}
        minutes={minutes}
        own={ownStart(times[0]?.startsAt ?? shop.now.getTime(), zone)}
        bays={bays}
        people={people}
        times={offered(times, shop.settings)}
      />
    </>
  );
}
