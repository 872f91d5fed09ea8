import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { numberSeries } from "@/lib/data/shop/numbers";
import { open } from "@/lib/gate/open";
import { chooseFirst } from "./actions";

/** Where each series of numbers stands; one that has not begun may begin at a number of the shop's own. */
export default async function NumbersPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("shop.write", slug);
  const series = await numberSeries(shop);
  return (
    <>
      <PageHead of={shop.name} title="Numbers" />
      <p className="mb-5 max-w-prose">
        Each kind of document has numbers of its own, one after the other and without gaps. Before the first
        one you can begin where your books ended; after it the numbers go on by themselves.
      </p>
      {series.map(({ kind, name, next, begun }) => (
        <Section key={kind} title={name}>
          {begun ? (
            <p>
              The next one is <span className="font-mono">{next}</span>.
            </p>
          ) : (
            <Form
              action={chooseFirst}
              shop={slug}
              hidden={{ kind }}
              label={`First number of ${name.toLowerCase()}`}
              className="flex max-w-md flex-wrap items-end gap-2.5"
            >
              <TextField
                name="first"
                label="First number"
                inputMode="numeric"
                mono
                initial={String(next)}
                maxLength={9}
                required
                className="flex-1"
              />
              <SubmitButton tone="second" className="mb-4">
                Begin at this number
              </SubmitButton>
            </Form>
          )}
        </Section>
      ))}
    </>
  );
}
