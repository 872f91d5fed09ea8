import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { getBike } from "@/lib/data/bikes/bikes";
import { balancesOf, lastBand } from "@/lib/data/jobs/balances";
import { VACUUM_BALANCE } from "@/lib/domain/procedures/vacuumBalance";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { BalanceForm } from "../../../_balance/BalanceForm";
import { BalanceResult } from "../../../_balance/BalanceResult";
import { ProcedureFolds } from "../../../_procedures/ProcedureFolds";
import { OfBike } from "../OfBike";

/** Every balance of a bike's carburettors, the newest first, and the next one. */
export default async function BalancePage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ after?: string }>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("bike.read", slug);
  const bike = await getBike(shop, pathId(id));
  if (!bike) notFound();
  const after = askedId((await searchParams).after);
  const [{ rows, next }, last] = await Promise.all([
    balancesOf(shop, { bikeId: bike.id }, after ?? undefined),
    lastBand(shop, bike.id),
  ]);
  const { locale, zone } = shop.settings;
  const home = `/s/${slug}/bikes/${bike.id}`;
  const several = bike.carburettors.length > 1;
  return (
    <>
      <PageHead of={shop.name} title="Vacuum balance" sub={<OfBike home={home} bike={bike} />} />
      <ProcedureFolds procedures={[VACUUM_BALANCE]} />
      {several && shop.can("sheet.write") && (
        <Section title="Read now">
          <BalanceForm slug={slug} bikeId={bike.id} carburettors={bike.carburettors} last={last} />
        </Section>
      )}
      {rows.length === 0 && (
        <Empty
          title={several ? "No balance is kept yet." : "This bike has one carburettor."}
          text={several ? "Readings of a card stand here too." : "There is nothing to balance it with."}
        />
      )}
      {rows.map((row) => (
        <Section
          key={row.id}
          title={[
            instantText(row.at.toISOString(), locale, zone),
            row.rpm === null ? "" : `${row.rpm} rpm`,
            row.job ? `job ${row.job.number}` : "",
          ]
            .filter(Boolean)
            .join(", ")}
        >
          <BalanceResult found={row} carburettors={bike.carburettors} locale={locale} />
        </Section>
      ))}
      {next && <LinkButton href={`${home}/balance?after=${next}`}>Older ones</LinkButton>}
    </>
  );
}
