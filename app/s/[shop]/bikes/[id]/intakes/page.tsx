import { notFound } from "next/navigation";
import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { Instant } from "@/app/_ui/Instant";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { arrivalsOfBike } from "@/lib/data/arrivals/get";
import { getBike } from "@/lib/data/bikes/bikes";
import { listIntakes } from "@/lib/data/intakes/get";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { SheetQuery } from "@/lib/schemas/sheets";

export default async function IntakesPage({
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
  const { rows, next } = await listIntakes(shop, bike.id, after);
  const { locale, zone, units } = shop.settings;
  const path = `/s/${slug}/bikes/${bike.id}/intakes`;
  const record = shop.can("intake.write") && (
    <LinkButton href={`${path}/new`} tone="main">
      New intake
    </LinkButton>
  );
  const arrivals = after ? [] : await arrivalsOfBike(shop, bike.id);
  return (
    <>
      <PageHead
        title="Intakes"
        of={shop.name}
        sub={`${bike.modelCard.make} ${bike.modelCard.model} · ${bike.customer.name}`}
        actions={
          <>
            {shop.can("intake.write") && (
              <LinkButton href={`/s/${slug}/arrivals/new?bike=${bike.id}`}>It comes in</LinkButton>
            )}
            {record}
          </>
        }
      />
      <DataTable
        caption="Intakes"
        columns={[
          { key: "at", header: "Taken", kind: "instant" },
          { key: "complaint", header: "Complaint" },
          { key: "odometer", header: "Odometer", kind: "figure", unit: distanceUnit(units), decimals: 0 },
          { key: "job", header: "Job" },
          { key: "state", header: "State" },
        ]}
        rows={rows.map((intake) => ({
          id: String(intake.id),
          href: `${path}/${intake.id}`,
          at: intake.at.toISOString(),
          complaint: intake.complaint.slice(0, 120),
          odometer: intake.odometerKm === null ? null : shownDistance(intake.odometerKm, units),
          job: intake.job && { text: `Job ${intake.job.number}`, href: `/s/${slug}/jobs/${intake.job.id}` },
          state: intake.withdrawnAt ? "withdrawn" : "stands",
        }))}
        locale={locale}
        zone={zone}
        path={path}
        query={{ after: after?.toString() }}
        next={next?.toString() ?? null}
        previous={after ? "" : null}
        empty={
          <Empty
            title="No intake yet."
            text="Ride it and look at it before you quote: what you note moves the curve and the choice of work."
            action={record}
          />
        }
      />
      {arrivals.length > 0 && (
        <Section title="How it came">
          <ul>
            {arrivals.map((one) => (
              <li key={one.id} className="border-hair border-b py-1">
                <Link
                  href={`/s/${slug}/arrivals/${one.id}`}
                  className="inline-flex min-h-6 items-center underline underline-offset-4 pointer-coarse:min-h-12"
                >
                  <Instant at={one.at.toISOString()} locale={locale} zone={zone} />
                </Link>{" "}
                <span className="text-soft">{one.signedAt ? "signed" : "not signed"}</span>
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  );
}
