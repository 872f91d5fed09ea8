import { notFound } from "next/navigation";
import { Facts } from "@/app/_ui/Facts";
import { Figure } from "@/app/_ui/Figure";
import { instantText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { getIntake } from "@/lib/data/intakes/get";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { FirstLook } from "./FirstLook";
import { Withdraw } from "./Withdraw";

export default async function IntakePage({
  params,
}: {
  params: Promise<{ shop: string; id: string; intake: string }>;
}) {
  const { shop: slug, id, intake: asked } = await params;
  const shop = await open("bike.read", slug);
  const intake = await getIntake(shop, pathId(id), pathId(asked));
  if (!intake) notFound();
  const { locale, zone, units } = shop.settings;
  const home = `/s/${slug}/bikes/${intake.bikeId}`;
  const { make, model } = intake.bike.modelCard;
  return (
    <>
      <PageHead
        title={`Intake, ${instantText(intake.at.toISOString(), locale, zone, "date")}`}
        of={shop.name}
        sub={
          <>
            <Link href={home} className="text-brass underline underline-offset-4">
              {make} {model}
            </Link>
            {[intake.bike.plate, intake.bike.customer.name].filter(Boolean).map((text) => ` · ${text}`)}
          </>
        }
        actions={
          shop.can("quote.write") &&
          intake.withdrawnAt === null && (
            <LinkButton href={`/s/${slug}/quotes/new?bike=${intake.bikeId}`} tone="main">
              New quote
            </LinkButton>
          )
        }
      />
      {intake.withdrawnAt && <Note title="Withdrawn.">{intake.withdrawnWhy}</Note>}
      <div className="gap-x-10 lg:columns-2">
        <Section title="What the owner says" className="break-inside-avoid">
          <Facts
            rows={[
              { name: "Complaint", value: intake.complaint },
              { name: "Changed before", value: intake.changedBefore },
              {
                name: "Odometer",
                value:
                  intake.odometerKm === null ? null : (
                    <Figure
                      value={shownDistance(intake.odometerKm, units)}
                      unit={distanceUnit(units)}
                      locale={locale}
                    />
                  ),
              },
              {
                name: "Fuel use",
                value:
                  intake.fuelUse === null ? null : (
                    <Figure value={intake.fuelUse} unit="l/100 km" locale={locale} decimals={1} />
                  ),
              },
              { name: "Also", value: intake.note },
              { name: "Taken by", value: intake.takenBy },
              {
                name: "On job",
                value: intake.job && (
                  <Link href={`/s/${slug}/jobs/${intake.job.id}`} className="underline underline-offset-4">
                    {intake.job.number}
                  </Link>
                ),
              },
            ].filter((row) => row.value)}
          />
        </Section>
        <FirstLook intake={intake} locale={locale} />
      </div>
      {shop.can("intake.write") && intake.withdrawnAt === null && (
        <Withdraw shop={slug} intakeId={intake.id} version={intake.version} />
      )}
    </>
  );
}
