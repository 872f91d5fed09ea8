import { PageHead } from "@/app/_ui/PageHead";
import { modelCardChoices } from "@/lib/data/bikes/modelCards";
import { customerChoices, getCustomerToEdit } from "@/lib/data/customers/customers";
import { askedId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { cardName } from "../cardName";
import { NewBikeForm } from "../NewBikeForm";

const MOST = 500;

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
  const [customers, cards, customer] = await Promise.all([
    customerChoices(shop, "", MOST),
    modelCardChoices(shop),
    getCustomerToEdit(shop, askedId(wanted) ?? 0),
  ]);
  // The one that was asked for is offered even where the list is longer than can be shown.
  const offered =
    customer && !customers.some((each) => each.id === customer.id) ? [customer, ...customers] : customers;
  return (
    <>
      <PageHead of={shop.name} title="New bike" sub={customer?.name} />
      {customers.length === MOST && !customer && (
        <p className="mb-4 text-soft">
          The first {MOST} customers are listed. For another, open that customer and add the bike there.
        </p>
      )}
      <NewBikeForm
        shop={slug}
        units={shop.settings.units}
        customer={customer ? String(customer.id) : ""}
        customers={offered.map((each) => ({
          value: String(each.id),
          label: each.phone ? `${each.name} (${each.phone})` : each.name,
        }))}
        cards={cards.map((card) => ({ value: String(card.id), label: cardName(card) }))}
        mayAddCustomer={shop.can("customer.write")}
      />
    </>
  );
}
