import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { getSheet } from "@/lib/data/bikes/sheets";
import { askedId, pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { CompareTable } from "../../../CompareTable";
import { KIND_NAMES } from "../../../settingText";

export default async function ComparePage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ a?: string; b?: string }>;
}) {
  const { shop: slug, id } = await params;
  const { a, b } = await searchParams;
  const shop = await open("bike.read", slug);
  const bikeId = pathId(id);
  const [from, to] = await Promise.all([
    getSheet(shop, bikeId, askedId(a) ?? 0),
    getSheet(shop, bikeId, askedId(b) ?? 0),
  ]);
  if (!from || !to) notFound();
  const { locale, zone } = shop.settings;
  const title = (sheet: typeof from) =>
    `${KIND_NAMES[sheet.kind]}, ${instantText(sheet.takenAt.toISOString(), locale, zone, "date")} (${sheet.id})`;
  const back = <LinkButton href={`/s/${slug}/bikes/${bikeId}/sheets`}>All sheets</LinkButton>;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Two sheets"
        sub={`${from.bike.modelCard.make} ${from.bike.modelCard.model} · ${from.bike.customer.name}`}
        actions={back}
      />
      {from.id === to.id ? (
        <Empty title="That is one sheet twice." text="Choose two different ones." action={back} />
      ) : (
        <CompareTable
          caption="Two setting sheets side by side"
          sheets={[from, to].map((sheet) => ({ title: title(sheet), values: sheet.values }))}
          carburettors={from.bike.carburettors}
          locale={locale}
        />
      )}
    </>
  );
}
