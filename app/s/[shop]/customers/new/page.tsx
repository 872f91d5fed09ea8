import { PageHead } from "@/app/_ui/PageHead";
import { open } from "@/lib/gate/open";
import { CustomerForm } from "../CustomerForm";

export default async function NewCustomerPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("customer.write", slug);
  return (
    <>
      <PageHead of={shop.name} title="New customer" />
      <CustomerForm shop={slug} />
    </>
  );
}
