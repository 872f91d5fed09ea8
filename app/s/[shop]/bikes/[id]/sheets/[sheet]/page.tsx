import { notFound } from "next/navigation";
import { Facts } from "@/app/_ui/Facts";
import { Figure } from "@/app/_ui/Figure";
import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Paper } from "@/app/_ui/Paper";
import { Section } from "@/app/_ui/Section";
import { describedParts } from "@/lib/data/bikes/describedParts";
import { needlesOf } from "@/lib/data/bikes/needles";
import { getSheet } from "@/lib/data/bikes/sheets";
import { airOfSheet } from "@/lib/data/common/air";
import { weatherSpot } from "@/lib/domain/air/places";
import { VERIFY } from "@/lib/domain/reason";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { NeedleStations } from "../../../../_needle/NeedleStations";
import { PartsBeside } from "../../../../_parts/PartsBeside";
import { PrintButton } from "../../../../jobs/[id]/PrintButton";
import { paperOf } from "../../../../jobs/[id]/paper";
import { CompareTable } from "../../../CompareTable";
import { KIND_NAMES } from "../../../settingText";
import { SheetAir } from "./SheetAir";

export default async function SheetPage({
  params,
}: {
  params: Promise<{ shop: string; id: string; sheet: string }>;
}) {
  const { shop: slug, id, sheet: sheetId } = await params;
  const shop = await open("bike.read", slug);
  const sheet = await getSheet(shop, pathId(id), pathId(sheetId));
  if (!sheet) notFound();
  const { locale, zone, units } = shop.settings;
  const { bike } = sheet;
  const home = `/s/${slug}/bikes/${sheet.bikeId}`;
  const needles = await needlesOf(shop.read, sheet.bikeId, { sheetId: sheet.id });
  const described = await describedParts(shop.read, sheet.bikeId, { sheetId: sheet.id });
  const air = airOfSheet(sheet.conditions, weatherSpot(shop.settings));
  const facts = [
    {
      name: "Bike",
      value: (
        <Link href={home} className="in-line text-brass">
          {[`${bike.modelCard.make} ${bike.modelCard.model}`, bike.year].filter(Boolean).join(", ")}
        </Link>
      ),
    },
    { name: "Plate", value: bike.plate, mono: true },
    { name: "Customer", value: bike.customer.name },
    { name: "Taken", value: <Instant at={sheet.takenAt.toISOString()} locale={locale} zone={zone} /> },
    { name: "By", value: sheet.takenBy },
    {
      name: "Odometer",
      value: sheet.odometerKm !== null && (
        <Figure value={shownDistance(sheet.odometerKm, units)} unit={distanceUnit(units)} locale={locale} />
      ),
    },
    { name: "Air", value: air && <SheetAir air={air} units={units} locale={locale} /> },
    { name: "Job", value: sheet.job && String(sheet.job.number), mono: true },
  ].filter((row) => row.value);
  return (
    <Paper size={paperOf(shop.settings.country)}>
      <PageHead
        of={shop.name}
        title={`${KIND_NAMES[sheet.kind]}, sheet ${sheet.id}`}
        sub={<span className="hidden print:inline">{shop.settings.name}</span>}
        actions={
          <>
            <LinkButton href={`${home}/sheets`}>All sheets</LinkButton>
            <LinkButton href={`/api/s/${slug}/sheets/${sheet.id}/pdf`} download>
              PDF
            </LinkButton>
            <PrintButton />
          </>
        }
      />
      <Facts rows={facts} />
      <div className="mt-6">
        <Section title="Settings">
          <CompareTable
            caption={`Settings, ${KIND_NAMES[sheet.kind]}`}
            sheets={[{ title: KIND_NAMES[sheet.kind], values: sheet.values }]}
            carburettors={bike.carburettors}
            locale={locale}
          />
          {sheet.values.some((value) => value.how === "computed") && <Note>{VERIFY}</Note>}
          <PartsBeside
            caption="Parts as described"
            columns={[KIND_NAMES[sheet.kind]]}
            rows={described.map(({ carburettor, part }) => ({ carburettor, kind: part.kind, parts: [part] }))}
          />
          {needles.map((needle) => (
            <div key={needle.id} className="mt-4">
              <h3 className="font-semibold">
                {needles.length > 1 ? `Needle of carburettor ${needle.carburettor}` : "Needle"}
                <span className="font-normal text-soft">, {needle.how}</span>
              </h3>
              <NeedleStations
                caption="Needle: diameters in mm"
                columns={[{ name: KIND_NAMES[sheet.kind], record: needle.record }]}
                locale={locale}
              />
            </div>
          ))}
        </Section>
      </div>
      {sheet.note && (
        <Section title="Note">
          <p className="whitespace-pre-line">{sheet.note}</p>
        </Section>
      )}
    </Paper>
  );
}
