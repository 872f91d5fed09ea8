import { Empty } from "@/app/_ui/Empty";
import { figureText } from "@/app/_ui/format";
import { JetDrawer } from "@/app/_ui/JetDrawer";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { TableFilters } from "@/app/_ui/TableFilters";
import { TablePages } from "@/app/_ui/TablePages";
import { drawerPage, listDrawerNames } from "@/lib/data/stock/drawerPage";
import { jetFamilyFacts } from "@/lib/data/stock/jetFamilies";
import { open } from "@/lib/gate/open";
import { DrawerSchema } from "@/lib/schemas/parts";
import { CONVENTION_WORDS } from "@/lib/schemas/partWords";
import { StockMenu } from "../StockMenu";
import { DescribeDrawer } from "./DescribeDrawer";

const numbered = (convention: string) =>
  convention === "bore" || convention === "flow" ? `, ${CONVENTION_WORDS[convention]}` : "";

export default async function DrawerPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("stock.read", slug);
  const query = DrawerSchema.parse(await searchParams);
  const [{ families, next }, names, facts] = await Promise.all([
    drawerPage(shop, query),
    listDrawerNames(shop),
    jetFamilyFacts(shop),
  ]);
  const at = {
    path: `/s/${slug}/stock/drawer`,
    query: { family: query.family, after: query.after?.toString() },
  };
  return (
    <>
      <PageHead of={shop.name} title="Drawer" />
      <StockMenu shop={slug} here="/drawer" />
      {names.length > 1 && (
        <TableFilters
          at={at}
          filters={[
            { name: "family", label: "Family", options: names.map((name) => ({ value: name, label: name })) },
          ]}
        />
      )}
      {families.length === 0 && (
        <Empty
          title="The drawer is empty."
          text="A part with a family and a size lies here: all 130s beside the 132.5s."
          action={
            shop.can("stock.write") && (
              <LinkButton href={`/s/${slug}/stock/new`} tone="main">
                Add a part
              </LinkButton>
            )
          }
        />
      )}
      {families.map((family) => (
        <Section
          key={family.family}
          title={family.family}
          aside={
            <span className="flex gap-4">
              {family.below > 0 && (
                <LinkButton
                  href={`/s/${slug}/stock?family=${encodeURIComponent(family.family)}&below=1`}
                  tone="quiet"
                >
                  {family.below} below point
                </LinkButton>
              )}
              {family.kind === "jet" && shop.can("stock.write") && (
                <DescribeDrawer slug={slug} name={family.family} kept={facts.get(family.family)} />
              )}
            </span>
          }
        >
          <JetDrawer
            name={`${family.kind}s${numbered(family.sizes[0]?.convention ?? "")}`}
            sizes={family.sizes.map((size) => ({
              size: size.sizeMilli / 1000,
              label: figureText(size.sizeMilli / 1000, shop.settings.locale),
              onHand: size.onHandMilli / 1000,
              reserved: size.reservedMilli / 1000,
              point: size.pointMilli > 0 ? size.pointMilli / 1000 : null,
              href: `/s/${slug}/stock/${size.partId}`,
            }))}
          />
        </Section>
      ))}
      <TablePages at={at} next={next?.toString() ?? null} previous={query.after ? "" : null} />
    </>
  );
}
