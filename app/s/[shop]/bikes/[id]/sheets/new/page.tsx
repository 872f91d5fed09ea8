import { notFound } from "next/navigation";
import { PageHead } from "@/app/_ui/PageHead";
import { getBike } from "@/lib/data/bikes/bikes";
import { draftOf } from "@/lib/data/jobs/sheets";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { systemOf } from "@/lib/schemas/bench";
import { SheetForm } from "../SheetForm";

export default async function NewSheetPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ kind?: string; job?: string }>;
}) {
  const { shop: slug, id } = await params;
  const { kind, job } = await searchParams;
  const shop = await open("sheet.write", slug);
  const bike = await getBike(shop, pathId(id));
  if (!bike) notFound();
  const { units, locale } = shop.settings;
  const jobId = bike.jobs.find((each) => each.id === askedId(job))?.id;
  const last = await draftOf(shop, bike.id, jobId, kind === "asLeft" ? "asLeft" : "asFound");
  return (
    <>
      <PageHead
        of={shop.name}
        title={kind === "asLeft" ? "Record as left" : "Record as found"}
        sub={`${bike.modelCard.make} ${bike.modelCard.model} · ${bike.customer.name}`}
      />
      <SheetForm
        shop={slug}
        bikeId={bike.id}
        jobId={jobId}
        kind={kind === "asLeft" ? "asLeft" : "asFound"}
        carburettors={bike.carburettors}
        last={last}
        odometer={{
          unit: distanceUnit(units),
          value: bike.odometerKm === null ? undefined : shownDistance(bike.odometerKm, units),
        }}
        system={systemOf(units)}
        locale={locale}
      />
    </>
  );
}
