import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { packageEffects } from "@/lib/data/figures/effects";
import { getPackage } from "@/lib/data/packages/get";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { OverBikes } from "../../../_effects/OverBikes";

/** What a package did on the bikes of this shop. */
export default async function PackageEffectsPage({
  params,
}: {
  params: Promise<{ shop: string; id: string }>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("package.read", slug);
  const found = await getPackage(shop, pathId(id));
  if (!found) notFound();
  const effects = await packageEffects(shop, found.id);
  return (
    <>
      <PageHead
        of={shop.name}
        title="What it does here"
        sub={
          <Link href={`/s/${slug}/packages/${found.id}`} className="text-brass underline underline-offset-4">
            {found.name}
          </Link>
        }
      />
      <p className="mb-3 max-w-prose text-[15px] text-soft">
        Figures before and after this package's work, whatever else was done with it: each bike counts once,
        with the middle value of its newest job that was read on both sides. A record, and no promise. Noise
        is the shop's own record and states no compliance.
      </p>
      {effects.length === 0 ? (
        <Empty
          title="Nothing is read on both sides yet."
          text="Figures are entered on a bike, under Before and after."
        />
      ) : (
        <OverBikes effects={effects} slug={slug} locale={shop.settings.locale} />
      )}
    </>
  );
}
