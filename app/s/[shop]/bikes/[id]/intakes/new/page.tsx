import { notFound } from "next/navigation";
import { PageHead } from "@/app/_ui/PageHead";
import { wordsOnArrival } from "@/lib/data/arrivals/get";
import { getBike } from "@/lib/data/bikes/bikes";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { IntakeForm } from "../IntakeForm";

export default async function NewIntakePage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ job?: string }>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("intake.write", slug);
  const bike = await getBike(shop, pathId(id));
  if (!bike) notFound();
  const { units } = shop.settings;
  const asked = askedId((await searchParams).job);
  return (
    <>
      <PageHead
        title="New intake"
        of={shop.name}
        sub={`${bike.modelCard.make} ${bike.modelCard.model} · ${bike.customer.name}`}
      />
      <IntakeForm
        shop={slug}
        bikeId={bike.id}
        jobId={bike.jobs.find((each) => each.id === asked)?.id}
        complaint={(await wordsOnArrival(shop, bike.id)) || bike.complaint}
        cylinders={bike.modelCard.cylinders}
        odometer={{
          unit: distanceUnit(units),
          value: bike.odometerKm === null ? undefined : shownDistance(bike.odometerKm, units),
        }}
      />
    </>
  );
}
