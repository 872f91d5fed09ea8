import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { einvoiceSeller } from "@/lib/data/einvoice/seller";
import { placeOf } from "@/lib/domain/einvoice/places";
import { open } from "@/lib/gate/open";
import { PartyFields } from "../../_einvoice/PartyFields";
import { saveSeller } from "./actions";

/** Whether businesses get e-invoices, and what those say of the shop. */
export default async function EinvoicesPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("shop.write", slug);
  const seller = await einvoiceSeller(shop.read);
  const { country } = shop.settings;
  const place = placeOf(country);
  return (
    <>
      <PageHead of={shop.name} title="E-invoices" sub="For customers that are businesses and want them." />
      <p className="mb-5 max-w-prose">
        An invoice is then a file that the customer’s program reads (UBL 2.1, by EN 16931; between Australia
        and New Zealand by PINT A-NZ), beside the PDF. It is downloaded from the invoice and goes with its
        mail. Sending it through a network is for your access point. Switch it on here, then for each
        customer.
      </p>
      {!place && (
        <Note title="No register is known here for your country.">
          E-invoices will say EN 16931 alone; ask the customer whether their program takes them.
        </Note>
      )}
      <Form
        action={saveSeller}
        shop={slug}
        hidden={{ version: String(seller.version), country }}
        label="E-invoices"
        className="max-w-[760px]"
      >
        <CheckField name="on" label="Customers that want e-invoices get them" initial={seller.on} />
        <Section title="The shop on them">
          <PartyFields
            party={seller}
            number={place?.number ?? "Registration number"}
            else="the number in Settings"
          />
        </Section>
        <SubmitButton size="act">Save</SubmitButton>
      </Form>
    </>
  );
}
