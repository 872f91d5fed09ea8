import { notFound } from "next/navigation";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { KeepMine } from "@/app/_ui/KeepMine";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { PickField } from "@/app/_ui/PickField";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { getBike } from "@/lib/data/bikes/bikes";
import { pickedModelCard, pickModelCards } from "@/lib/data/bikes/pick";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { pickCustomers, pickedCustomer } from "@/lib/data/customers/pick";
import { severitiesToChoose } from "@/lib/data/shop/severities";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { saveBike, takeBikeOut } from "../../actions";
import { BikeDetails } from "../../BikeDetails";

export default async function EditBikePage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("bike.write", slug);
  const [bike, customers, cards] = await Promise.all([
    getBike(shop, pathId(id)),
    pickCustomers(shop, "", MOST_NEWEST),
    pickModelCards(shop, "", MOST_NEWEST),
  ]);
  if (!bike) notFound();
  const [owner, card] = await Promise.all([
    pickedCustomer(shop, bike.customerId),
    pickedModelCard(shop, bike.modelCardId),
  ]);
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
            <PickField
              shop={slug}
              from="customers"
              name="customerId"
              label="Customer"
              chosen={owner}
              newest={customers.rows}
              required
            />
            <PickField
              shop={slug}
              from="cards"
              name="modelCardId"
              label="Model card"
              chosen={card}
              newest={cards.rows}
              required
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
        <BikeDetails
          units={shop.settings.units}
          uses={await severitiesToChoose(shop, bike.severityId)}
          bike={bike}
        />
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
