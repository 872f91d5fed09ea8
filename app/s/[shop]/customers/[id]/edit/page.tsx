import { notFound } from "next/navigation";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { getCustomerToEdit } from "@/lib/data/customers/customers";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { takeCustomerOut } from "../../actions";
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
      <PageHead of={shop.name} title={`Change ${customer.name}`} />
      <CustomerForm shop={slug} customer={customer} />
      <div className="mt-10 flex flex-wrap gap-3">
        {shop.can("record.merge") && (
          <LinkButton href={`/s/${slug}/customers/${customer.id}/merge`}>Merge with a double</LinkButton>
        )}
        {shop.can("customer.erase") && (
          <LinkButton href={`/s/${slug}/customers/${customer.id}/erase`}>Erase personal data</LinkButton>
        )}
        <Dialog trigger="Remove this customer" triggerTone="danger" title={`Remove ${customer.name}`}>
          <Form
            action={takeCustomerOut}
            shop={slug}
            hidden={{ id: String(customer.id), version: String(customer.version) }}
            label="Remove"
          >
            <p className="mb-3">
              For a customer made by mistake. With a bike, a quote, a job or an invoice nobody can be removed.
            </p>
            <SubmitButton tone="danger">Remove</SubmitButton>
          </Form>
        </Dialog>
      </div>
    </>
  );
}
