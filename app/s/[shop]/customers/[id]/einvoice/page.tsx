import { notFound } from "next/navigation";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { getCustomerToEdit } from "@/lib/data/customers/customers";
import { einvoiceBuyer } from "@/lib/data/einvoice/buyer";
import { einvoiceSeller } from "@/lib/data/einvoice/seller";
import { PLACES, placeOf } from "@/lib/domain/einvoice/places";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { PartyFields } from "../../../_einvoice/PartyFields";
import { saveBuyer } from "./actions";

/** Whether a business gets e-invoices, and what those say of it. */
export default async function CustomerEinvoicePage({
  params,
}: {
  params: Promise<{ shop: string; id: string }>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("customer.write", slug);
  const customer = await getCustomerToEdit(shop, pathId(id));
  if (!customer) notFound();
  const buyer = await einvoiceBuyer(shop.read, customer.id);
  const { on } = await einvoiceSeller(shop.read);
  const back = `/s/${slug}/customers/${customer.id}`;
  return (
    <>
      <PageHead of={shop.name} title="E-invoices" sub={customer.name} />
      {!on && (
        <Note title="E-invoices are off for the whole shop.">
          {shop.can("shop.write") ? (
            <Link href={`/s/${slug}/shop/einvoices`} className="text-brass underline underline-offset-4">
              Switch them on
            </Link>
          ) : (
            "An owner switches them on."
          )}
        </Note>
      )}
      <Form
        action={saveBuyer}
        shop={slug}
        hidden={{ customerId: String(customer.id), version: String(buyer.version) }}
        label="E-invoices"
        className="max-w-[760px]"
      >
        <CheckField
          name="on"
          label="Gets e-invoices"
          initial={buyer.on}
          detail={customer.business ? undefined : "This customer is no business yet: tick it under Change."}
        />
        <Section title="The customer on them">
          <SelectField
            name="country"
            label="Country"
            initial={buyer.country}
            options={PLACES.map(({ country, name }) => ({ value: country, label: name }))}
          />
          <PartyFields
            party={buyer}
            number={placeOf(buyer.country)?.number ?? "Registration number"}
            else="their tax number"
          />
          <TextField
            name="reference"
            label="Their reference"
            initial={buyer.reference}
            hint="What they want to read on every invoice. An order number goes on each draft."
            maxLength={80}
          />
        </Section>
        <div className="flex flex-wrap items-center gap-3">
          <SubmitButton size="act">Save</SubmitButton>
          <LinkButton href={back} tone="quiet">
            Leave it
          </LinkButton>
        </div>
      </Form>
    </>
  );
}
