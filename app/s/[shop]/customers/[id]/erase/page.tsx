import { notFound } from "next/navigation";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { getCustomerToEdit } from "@/lib/data/customers/customers";
import { againstErasing, staysOf } from "@/lib/data/erasing/against";
import { keptOf } from "@/lib/data/erasing/keeping";
import { erasedName } from "@/lib/data/erasing/known";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { eraseCustomerData } from "../../actions";
import { KeptRecords } from "../../KeptRecords";

export default async function EraseCustomerPage({
  params,
}: {
  params: Promise<{ shop: string; id: string }>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("customer.erase", slug);
  const customer = await getCustomerToEdit(shop, pathId(id));
  if (!customer) notFound();
  const [against, stays, { kept, years, source }] = await Promise.all([
    againstErasing(shop, customer.id),
    staysOf(shop, customer.id),
    keptOf(shop, customer.id),
  ]);
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Erase the personal data of ${customer.name}`}
        sub="This cannot be undone"
      />
      {against.length > 0 && (
        <Note title="Not yet.">
          <ul className="list-disc pl-5">
            {against.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </Note>
      )}
      <Section title="Their data">
        <p className="mb-3 max-w-[720px]">
          A customer may ask for what you know of them: give it to them before it is gone. The photos
          themselves are on the pages of bikes and jobs.
        </p>
        <p className="flex flex-wrap gap-2.5">
          <LinkButton download href={`/api/s/${slug}/customers/${customer.id}/data`}>
            As JSON
          </LinkButton>
          <LinkButton download href={`/api/s/${slug}/customers/${customer.id}/data?form=csv`}>
            As CSV
          </LinkButton>
        </p>
      </Section>
      <Section title="What goes">
        <ul className="max-w-[720px] list-disc pl-5">
          <li>
            Name, address, e-mail, phone, tax number and notes; the customer reads “{erasedName(customer.id)}
            ”.
          </li>
          <li>Plates, frame numbers and notes of their bikes, and all photos of bikes and jobs.</li>
          <li>
            Mails to them with what was enclosed, links that they were sent, questions, wishes, names and
            signatures at the counter.
          </li>
          <li>What was said of the bike, its rides and its work in free words.</li>
          <li>What the audit trail and imports say of them, and everything they are found by.</li>
        </ul>
      </Section>
      <Section title="What stays">
        <ul className="max-w-[720px] list-disc pl-5">
          <li>
            Invoices, credit notes and reminders as they were issued ({stays.documents}), and payments: the
            law wants them kept, with who they were issued to.
          </li>
          <li>Quotes that they accepted, with their yes ({stays.acceptances}).</li>
          <li>The work itself without a name ({stays.jobs} jobs): settings, readings, times and parts.</li>
          <li>
            Lines of your bank’s lists. Backups and exports that were made before: backups go as they age;
            remove exports that you downloaded.
          </li>
          <li>
            A name, phone or plate that somebody else here has too, where it stands in words that belong to
            nobody.
          </li>
        </ul>
      </Section>
      <Section title="Until when">
        <p className="max-w-[720px]">
          {years} years after the accounting year. {source}. After that the server takes who they were out of
          these by itself; sums, tax and numbers stay.
        </p>
        <KeptRecords slug={slug} locale={shop.settings.locale} kept={kept} />
      </Section>
      {against.length === 0 && (
        <Form
          action={eraseCustomerData}
          shop={slug}
          hidden={{ id: String(customer.id), version: String(customer.version) }}
          label="Erase"
          className="grid max-w-[720px] gap-4"
        >
          <CheckField name="sure" label={`Erase what is known of ${customer.name}`} />
          <SubmitButton tone="danger">Erase for good</SubmitButton>
        </Form>
      )}
    </>
  );
}
