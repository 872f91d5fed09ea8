import Form from "next/form";
import { notFound } from "next/navigation";
import { Button } from "@/app/_ui/Button";
import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { getBike } from "@/lib/data/bikes/bikes";
import { listSheets } from "@/lib/data/bikes/sheets";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { SheetQuery } from "@/lib/schemas/sheets";
import { KIND_NAMES } from "../../settingText";

export default async function SheetsPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("bike.read", slug);
  const bike = await getBike(shop, pathId(id));
  if (!bike) notFound();
  const { after } = SheetQuery.parse(await searchParams);
  const { rows, next } = await listSheets(shop, bike.id, after);
  const { locale, zone, units } = shop.settings;
  const home = `/s/${slug}/bikes/${bike.id}`;
  const day = (at: Date) => instantText(at.toISOString(), locale, zone, "date");
  const choices = rows.map((sheet) => ({
    value: String(sheet.id),
    label: `${KIND_NAMES[sheet.kind]}, ${day(sheet.takenAt)} (sheet ${sheet.id})`,
  }));
  const record = shop.can("sheet.write") && (
    <LinkButton href={`${home}/sheets/new`} tone="main">
      Record a sheet
    </LinkButton>
  );
  return (
    <>
      <PageHead
        of={shop.name}
        title="Setting sheets"
        sub={`${bike.modelCard.make} ${bike.modelCard.model} · ${bike.customer.name}`}
        actions={record}
      />
      {rows.length > 1 && (
        <Section title="Any two side by side">
          <Form action={`${home}/sheets/compare`} className="flex flex-wrap items-end gap-x-4">
            <SelectField name="a" label="From" options={choices} initial={choices[1]?.value} />
            <SelectField name="b" label="To" options={choices} initial={choices[0]?.value} />
            <Button type="submit" className="mb-4">
              Compare
            </Button>
          </Form>
        </Section>
      )}
      <DataTable
        caption="Setting sheets"
        columns={[
          { key: "kind", header: "Sheet" },
          { key: "at", header: "Taken", kind: "instant" },
          { key: "odometer", header: "Odometer", kind: "figure", unit: distanceUnit(units), decimals: 0 },
          { key: "job", header: "Job" },
          { key: "note", header: "Note" },
        ]}
        rows={rows.map((sheet) => ({
          id: String(sheet.id),
          href: `${home}/sheets/${sheet.id}`,
          kind: `${KIND_NAMES[sheet.kind]} (${sheet.id})`,
          at: sheet.takenAt.toISOString(),
          odometer: sheet.odometerKm === null ? null : shownDistance(sheet.odometerKm, units),
          job: sheet.job && { text: `Job ${sheet.job.number}`, href: `/s/${slug}/jobs/${sheet.job.id}` },
          note: sheet.note,
        }))}
        locale={locale}
        zone={zone}
        path={`${home}/sheets`}
        query={{ after: after?.toString() }}
        next={next?.toString() ?? null}
        previous={after ? "" : null}
        empty={
          <Empty
            title="No sheets yet."
            text="Record the bike as found before anything is turned."
            action={record}
          />
        }
      />
    </>
  );
}
