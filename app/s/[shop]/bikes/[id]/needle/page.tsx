import Form from "next/form";
import { notFound } from "next/navigation";
import { Button } from "@/app/_ui/Button";
import { Empty } from "@/app/_ui/Empty";
import { Facts } from "@/app/_ui/Facts";
import { figureText, instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { NumberField } from "@/app/_ui/NumberField";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { type KeptNeedle, needleHistory, type WrittenNeedle } from "@/lib/data/bikes/needles";
import { meanRingMm2 } from "@/lib/domain/tuning/needleProfile";
import { needleOf, recordOfShape, straightLengthMm, wornMm } from "@/lib/domain/tuning/needleRecord";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { readTyped } from "@/lib/schemas/typedNumber";
import { NeedleBeside, type NeedleOnShow } from "../../../_needle/NeedleBeside";
import { NeedleStations } from "../../../_needle/NeedleStations";

const STATES = { found: "as found", target: "target", made: "as made", left: "as left" } as const;
/** Lift that is drawn first: about a third of a usual bore. Source: judgement. */
const LIFT_MM = 12;

export default async function NeedlePage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ c?: string; lift?: string; against?: string }>;
}) {
  const { shop: slug, id } = await params;
  const asked = await searchParams;
  const shop = await open("bike.read", slug);
  const bike = await benchBike(shop, pathId(id));
  if (!bike) notFound();
  const { locale, zone } = shop.settings;
  const home = `/s/${slug}/bikes/${bike.id}`;
  const place = bike.carburettors.find((c) => c.position === askedId(asked.c)) ?? bike.carburettors[0];
  const written = (await needleHistory(shop.read, bike.id)).filter((n) => n.carburettor === place?.position);
  const all = written.filter((needle) => !needle.takenBack);
  const now = all.find((needle) => needle.state !== "target");
  const delivered = bike.card.needle?.value;
  const title = (needle: KeptNeedle) =>
    `${STATES[needle.state]}, ${instantText(needle.takenAt.toISOString(), locale, zone, "date")}`;
  const shapeOf = (needle: KeptNeedle) => needleOf(needle.record, bike.card).shape;
  const against = all.find((needle) => needle.id === askedId(asked.against));
  const other = against && shapeOf(against);
  const own = now && shapeOf(now);
  const shape = own ?? delivered;
  const full = bike.card.boreMm?.value ?? 38;
  const lift = Math.min(full, Math.max(0, readTyped(asked.lift ?? "") ?? LIFT_MM));
  const before = other ?? delivered;
  const shown: NeedleOnShow[] = [
    ...(before && before !== shape
      ? [{ name: against ? title(against) : "as delivered", shape: before, raisedMm: 0 }]
      : []),
    ...(shape ? [{ name: own ? "now" : "as delivered", shape, raisedMm: 0 }] : []),
  ];
  const jet = bike.card.needleJetMm?.value;
  return (
    <>
      <PageHead
        title={bike.carburettors.length > 1 && place ? `Needle, ${place.name}` : "Needle"}
        of={shop.name}
        sub={bike.name}
        actions={
          <>
            <LinkButton href={home}>The bike</LinkButton>
            {shop.can("sheet.write") && (
              <LinkButton href={`${home}/needle/new?c=${place?.position ?? 1}`} tone="main">
                Measure the needle
              </LinkButton>
            )}
          </>
        }
      />
      {bike.carburettors.length > 1 && (
        <p className="mb-4 flex flex-wrap gap-3">
          {bike.carburettors.map((c) => (
            <LinkButton key={c.position} href={`${home}/needle?c=${c.position}`} tone="quiet">
              {c.name}
            </LinkButton>
          ))}
        </p>
      )}
      <Section title="The needle now">
        {now ? (
          <>
            <NeedleFacts needle={now} bike={bike} locale={locale} />
            <NeedleStations
              caption="Diameters below the shoulder"
              columns={[
                { name: "as delivered", record: delivered ? recordOfShape(delivered, "delivered") : null },
                { name: "now", record: now.record },
              ]}
              locale={locale}
            />
            {now.record.note && <p className="mb-2 text-soft">{now.record.note}</p>}
            {needleOf(now.record, bike.card).ask && (
              <Note title="The curve does not have it yet.">{needleOf(now.record, bike.card).ask}</Note>
            )}
          </>
        ) : (
          <Empty
            title="Nobody has measured this needle."
            text={
              delivered
                ? "The model card's delivered needle stands in for it."
                : "The model card knows none either: a needle of usual proportions stands in."
            }
          />
        )}
      </Section>
      {shown.length > 0 && jet !== undefined && (
        <Section title="In its jet, to scale">
          <Form action={`${home}/needle`} className="mb-3 flex flex-wrap items-end gap-x-5">
            <input type="hidden" name="c" value={String(place?.position ?? 1)} />
            <NumberField
              name="lift"
              label="Slide lift"
              unit="mm"
              step={1}
              min={0}
              max={full}
              initial={lift}
            />
            {all.length > 0 && (
              <SelectField
                name="against"
                label="Beside"
                initial={against ? String(against.id) : ""}
                options={[
                  { value: "", label: "as delivered" },
                  ...all.filter((n) => n !== now).map((n) => ({ value: String(n.id), label: title(n) })),
                ]}
              />
            )}
            <Button type="submit" className="mb-4">
              Draw
            </Button>
          </Form>
          <NeedleBeside needles={shown} needleJetMm={jet} liftMm={lift} fullLiftMm={full} locale={locale} />
          <MeanRing needles={shown} jet={jet} full={full} locale={locale} />
        </Section>
      )}
      {written.length > 0 && (
        <Section title="All that was written of it">
          {written.map((needle) => (
            <details key={needle.id} className="border-hair border-b py-2">
              <summary className="min-h-6 pointer-coarse:min-h-12">
                {title(needle)} <span className="text-soft">{fromWhere(needle)}</span>
              </summary>
              <NeedleStations
                caption={title(needle)}
                columns={[{ name: STATES[needle.state], record: needle.record }]}
                locale={locale}
              />
              {needle.record.note && <p className="text-soft">{needle.record.note}</p>}
            </details>
          ))}
        </Section>
      )}
    </>
  );
}

/** How a needle is known, and what became of its readings. */
function fromWhere({ how, onCard, takenBack }: WrittenNeedle): string {
  if (takenBack) return "read on the job card, taken back";
  return onCard === "read" ? "read on the job card" : how;
}

function NeedleFacts({
  needle,
  bike,
  locale,
}: {
  needle: KeptNeedle;
  bike: NonNullable<Awaited<ReturnType<typeof benchBike>>>;
  locale: string;
}) {
  const { record } = needle;
  const mm = (value: number | null, decimals = 2) =>
    value === null ? "not known" : `${figureText(value, locale, decimals)} mm`;
  const worn = record.origin === "reshaped" ? null : wornMm(record, bike.card.needle?.value);
  const limit = bike.facts.facts.find((fact) => fact.key === "needleWearMm")?.value ?? null;
  const rows = [
    { name: "From", value: record.origin === "reshaped" ? "reshaped here" : record.origin },
    { name: "Marks", value: record.marks || "none read" },
    { name: "Known", value: needle.how },
    { name: "Micrometer's step", value: mm(record.micrometerMm, 3) },
    { name: "Straight part, from the shoulder", value: mm(straightLengthMm(record), 1) },
    {
      name: "Clip grooves",
      value:
        record.grooves === null
          ? "not counted"
          : record.grooves === 0
            ? "none: it sits by shims"
            : record.grooves,
    },
    { name: "Needle jet below the shoulder, slide shut", value: mm(record.planeMm, 1) },
    ...(worn === null || limit === null
      ? []
      : [
          {
            name: "Wear",
            value: `${mm(Math.max(0, worn), 3)}, worn from ${mm(limit, 3)} on${worn >= limit ? ": exchange it" : ""}`,
          },
        ]),
  ];
  return (
    <div className="mb-3">
      <Facts rows={rows} />
    </div>
  );
}

/** The mean open ring from a quarter to three quarters of the lift, exact, of each needle. */
function MeanRing({
  needles,
  jet,
  full,
  locale,
}: {
  needles: readonly NeedleOnShow[];
  jet: number;
  full: number;
  locale: string;
}) {
  const fits = needles.filter(({ shape }) => shape.straightMm < jet);
  if (fits.length === 0) return null;
  const means = fits.map((n) => ({
    name: n.name,
    ring: meanRingMm2(n.shape, jet, full / 4, (3 * full) / 4),
  }));
  return (
    <p className="text-soft">
      Mean ring from a quarter to three quarters of the lift:{" "}
      {means.map((m) => `${m.name} ${figureText(m.ring, locale, 3)} mm²`).join(", ")}.
    </p>
  );
}
