import { notFound } from "next/navigation";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { KeepMine } from "@/app/_ui/KeepMine";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { getBike } from "@/lib/data/bikes/bikes";
import { modelCardChoices } from "@/lib/data/bikes/modelCards";
import { customerChoices } from "@/lib/data/customers/customers";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { saveBike, takeBikeOut } from "../../actions";
import { BikeDetails } from "../../BikeDetails";
import { cardName } from "../../cardName";

export default async function EditBikePage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("bike.write", slug);
  const [bike, customers, cards] = await Promise.all([
    getBike(shop, pathId(id)),
    customerChoices(shop, "", 500),
    modelCardChoices(shop),
  ]);
  if (!bike) notFound();
  const owners = customers.some((each) => each.id === bike.customerId)
    ? customers
    : [bike.customer, ...customers];
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Change ${bike.modelCard.make} ${bike.modelCard.model}`}
        sub={bike.customer.name}
      />
      <Form
        action={saveBike}
        shop={slug}
        hidden={{ id: String(bike.id), version: String(bike.version) }}
        label="Change the bike"
        className="max-w-[760px]"
      >
        <Section title="Whose, and which model">
          <div className="grid gap-x-5 sm:grid-cols-2">
            <SelectField
              name="customerId"
              label="Customer"
              initial={String(bike.customerId)}
              options={owners.map((each) => ({ value: String(each.id), label: each.name }))}
            />
            <SelectField
              name="modelCardId"
              label="Model card"
              initial={String(bike.modelCardId)}
              options={cards.map((card) => ({ value: String(card.id), label: cardName(card) }))}
            />
          </div>
        </Section>
        <Section title="Carburettors">
          {bike.carburettors.map(({ position, label, marking }) => (
            <div key={position} className="grid gap-x-5 sm:grid-cols-2">
              <TextField
                name={`carburettors.${position}.label`}
                label={`Number ${position} is called`}
                initial={label}
                maxLength={30}
              />
              <TextField
                name={`carburettors.${position}.marking`}
                label={`Marking on number ${position}`}
                initial={marking}
                mono
                maxLength={60}
              />
            </div>
          ))}
        </Section>
        <BikeDetails units={shop.settings.units} bike={bike} />
        <KeepMine />
        <div className="flex flex-wrap items-center gap-3">
          <SubmitButton size="act">Save</SubmitButton>
          <LinkButton href={`/s/${slug}/bikes/${bike.id}`} tone="quiet">
            Leave it
          </LinkButton>
        </div>
      </Form>
      <div className="mt-10 flex flex-wrap gap-3">
        {shop.can("record.merge") && (
          <LinkButton href={`/s/${slug}/bikes/${bike.id}/merge`}>Merge with a double</LinkButton>
        )}
        <Dialog trigger="Remove this bike" triggerTone="danger" title="Remove the bike">
          <Form
            action={takeBikeOut}
            shop={slug}
            hidden={{ id: String(bike.id), version: String(bike.version) }}
            label="Remove"
          >
            <p className="mb-3">
              For a bike made by mistake. With a sheet, a quote, a job or a photo no bike can be removed.
            </p>
            <SubmitButton tone="danger">Remove</SubmitButton>
          </Form>
        </Dialog>
      </div>
    </>
  );
}
