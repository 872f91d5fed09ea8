import { EventList } from "@/app/_ui/EventList";
import { PageHead } from "@/app/_ui/PageHead";
import { eventsOfShop } from "@/lib/data/people/events";
import { askedId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";

export default async function Security({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ before?: string }>;
}) {
  const { shop: slug } = await params;
  const { before } = await searchParams;
  const shop = await open("audit.read", slug);
  const { locale, zone } = shop.settings;
  const page = await eventsOfShop(shop, askedId(before));
  return (
    <>
      <PageHead
        of={shop.name}
        title="Who came in"
        sub="Sign-ins, refusals and changes of the shop's people. It only grows."
      />
      <EventList page={page} locale={locale} zone={zone} here={`/s/${slug}/shop/security`} named />
    </>
  );
}
