import { Empty } from "@/app/_ui/Empty";
import { figureText } from "@/app/_ui/format";
import { JetDrawer } from "@/app/_ui/JetDrawer";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { listDrawer } from "@/lib/data/stock/drawer";
import { jetFamilyFacts } from "@/lib/data/stock/jetFamilies";
import { open } from "@/lib/gate/open";
import { CONVENTION_WORDS } from "@/lib/schemas/partWords";
import { StockMenu } from "../StockMenu";
import { DescribeDrawer } from "./DescribeDrawer";

const numbered = (convention: string) =>
  convention === "bore" || convention === "flow" ? `, ${CONVENTION_WORDS[convention]}` : "";

export default async function DrawerPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("stock.read", slug);
  const [families, facts] = await Promise.all([listDrawer(shop), jetFamilyFacts(shop)]);
  return (
    <>
      <PageHead of={shop.name} title="Drawer" />
      <StockMenu shop={slug} here="/drawer" />
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
      {families.map((family) => {
        const below = family.sizes.filter((size) => size.below);
        return (
          <Section
            key={family.family}
            title={family.family}
            aside={
              <span className="flex gap-4">
                {below.length > 0 && (
                  <LinkButton
                    href={`/s/${slug}/stock?family=${encodeURIComponent(family.family)}&below=1`}
                    tone="quiet"
                  >
                    {below.length} below point
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
        );
      })}
    </>
  );
}
