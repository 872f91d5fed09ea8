import { notFound } from "next/navigation";
import { PageHead } from "@/app/_ui/PageHead";
import { getCustomerToEdit } from "@/lib/data/customers/customers";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { CustomerForm } from "../../CustomerForm";

export default async function EditCustomerPage({
  params,
}: {
  params: Promise<{ shop: string; id: string }>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("customer.write", slug);
  const customer = await getCustomerToEdit(shop, pathId(id));
  if (!customer) notFound();
  return (
    <>
      <PageHead title={`Change ${customer.name}`} />
      <CustomerForm shop={slug} customer={customer} />
    </>
  );
}
