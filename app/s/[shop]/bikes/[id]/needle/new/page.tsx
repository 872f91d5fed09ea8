import { notFound } from "next/navigation";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { getBike } from "@/lib/data/bikes/bikes";
import { fittedNeedles } from "@/lib/data/bikes/needles";
import { type SettingKey, settingDef } from "@/lib/domain/tuning/settings";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { NeedleRecordFields } from "../../../../_needle/NeedleRecordFields";
import { measureNeedle } from "../actions";

const HEIGHTS: readonly SettingKey[] = [
  "needleShimBelowMm",
  "needleShimAboveMm",
  "needleSeatMm",
  "clipPosition",
];

export default async function MeasureNeedlePage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ c?: string; job?: string; state?: string }>;
}) {
  const { shop: slug, id } = await params;
  const asked = await searchParams;
  const shop = await open("sheet.write", slug);
  const [bike, known] = await Promise.all([getBike(shop, pathId(id)), benchBike(shop, pathId(id))]);
  if (!bike || !known) notFound();
  const place = known.carburettors.find((c) => c.position === askedId(asked.c)) ?? known.carburettors[0];
  const jobId = bike.jobs.find((job) => job.id === askedId(asked.job))?.id;
  const made = asked.state === "made" && jobId !== undefined;
  const last = place ? ((await fittedNeedles(shop.read, bike.id)).get(place.position)?.record ?? null) : null;
  return (
    <>
      <PageHead
        title={made ? "Needle as made" : "Needle as found"}
        of={shop.name}
        sub={known.carburettors.length > 1 ? `${known.name}, ${place?.name}` : known.name}
      />
      <Form
        action={measureNeedle}
        shop={slug}
        hidden={{
          bikeId: String(bike.id),
          carburettor: String(place?.position ?? 1),
          state: made ? "made" : "found",
          ...(jobId ? { jobId: String(jobId) } : {}),
        }}
        label="Needle"
        className="max-w-[900px]"
      >
        <Section title="The needle">
          <NeedleRecordFields last={made && last ? { ...last, origin: "reshaped" } : last} />
        </Section>
        {!made && (
          <Section title="Where it sits, as found">
            <div className="grid gap-x-8 sm:grid-cols-2">
              {HEIGHTS.map((key) => {
                const def = settingDef(key);
                return (
                  def && (
                    <NumberField
                      key={key}
                      name={key}
                      label={def.name}
                      unit={def.unit || undefined}
                      step={def.step}
                      decimals={def.decimals}
                      min={def.low}
                      max={def.high}
                      hint={key === "needleShimBelowMm" ? "Blank: not counted. 0: there is none." : undefined}
                    />
                  )
                );
              })}
            </div>
          </Section>
        )}
        <SubmitButton size="act">Record the needle</SubmitButton>
      </Form>
    </>
  );
}
