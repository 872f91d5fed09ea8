import { PageHead } from "@/app/_ui/PageHead";
import { pickModelCards } from "@/lib/data/bikes/pick";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { pickCustomers, pickedCustomer } from "@/lib/data/customers/pick";
import { severitiesToChoose } from "@/lib/data/shop/severities";
import { askedId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { NewBikeForm } from "../NewBikeForm";

export default async function NewBikePage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ customer?: string }>;
}) {
  const { shop: slug } = await params;
  const { customer: wanted } = await searchParams;
  const shop = await open("bike.write", slug);
  const [customers, cards, customer, uses] = await Promise.all([
    pickCustomers(shop, "", MOST_NEWEST),
    pickModelCards(shop, "", MOST_NEWEST),
    pickedCustomer(shop, askedId(wanted)),
    severitiesToChoose(shop),
  ]);
  return (
    <>
      <PageHead of={shop.name} title="New bike" sub={customer?.label} />
      <NewBikeForm
        shop={slug}
        units={shop.settings.units}
        customer={customer}
        customers={customers.rows}
        cards={cards.rows}
        uses={uses}
        mayAddCustomer={shop.can("customer.write")}
      />
    </>
  );
}
