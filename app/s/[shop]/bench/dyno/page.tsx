import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { shownUnit } from "@/lib/domain/units/systems";
import { open } from "@/lib/gate/open";
import { systemOf } from "@/lib/schemas/bench";
import { DynoForm } from "./DynoForm";
import { exampleRuns } from "./example";

export default async function Dyno({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ example?: string }>;
}) {
  const { shop: slug } = await params;
  const shop = await open("bench.use", slug);
  const { example } = await searchParams;
  const system = systemOf(shop.settings.units);
  return (
    <>
      <PageHead
        of={shop.name}
        title="Dyno runs"
        sub="Bench"
        actions={<LinkButton href={`/s/${slug}/bench/dyno?example=1`}>Fill in an example</LinkButton>}
      />
      <DynoForm
        key={example ?? ""}
        slug={slug}
        initial={example ? exampleRuns() : ""}
        locale={shop.settings.locale}
        units={{
          powerUnit: shownUnit(system, "power").unit,
          torqueUnit: shownUnit(system, "torque").unit,
          temperatureUnit: shownUnit(system, "airTemperature").unit,
          pressureUnit: shownUnit(system, "airPressure").unit,
        }}
      />
    </>
  );
}
