import { notFound } from "next/navigation";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { arrivalToRecord } from "@/lib/data/arrivals/toRecord";
import { pickBikes } from "@/lib/data/bikes/pick";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { askedId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { ArrivalForm } from "../ArrivalForm";

/** Taking a bike in: for a job, a booking or a bike, or a record that is corrected. */
export default async function NewArrivalPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const query = await searchParams;
  const shop = await open("intake.write", slug);
  const of = await arrivalToRecord(shop, {
    jobId: askedId(query.job),
    bookingId: askedId(query.booking),
    bikeId: askedId(query.bike),
    replacesId: askedId(query.corrects),
  });
  if (!of) notFound();
  const { units } = shop.settings;
  const km = of.before?.odometerKm ?? null;
  return (
    <>
      <PageHead
        of={shop.name}
        title={of.before ? "Record the arrival anew" : "A bike comes in"}
        sub={[of.bike && `${of.bike.name}, ${of.bike.customer}`, of.about].filter(Boolean).join(" · ")}
      />
      {of.standing !== null ? (
        <Note title={of.before ? "A later record replaces this one." : "How it came is recorded already."}>
          <LinkButton tone="quiet" href={`/s/${slug}/arrivals/${of.standing}`}>
            Open the record
          </LinkButton>
        </Note>
      ) : (
        <ArrivalForm
          shop={slug}
          of={of}
          bikes={of.bike ? [] : (await pickBikes(shop, "", MOST_NEWEST)).rows}
          odometer={{ unit: distanceUnit(units), value: km === null ? undefined : shownDistance(km, units) }}
        />
      )}
    </>
  );
}
