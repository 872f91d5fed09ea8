import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { priceBook } from "@/lib/data/shop/prices";
import { majorText } from "@/lib/domain/money/major";
import { open } from "@/lib/gate/open";
import { saveLabourGrade, saveMarkup } from "../actions";

export default async function Prices({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("shop.write", slug);
  const { grades, bands } = await priceBook(shop);
  const { currency, pricesIncludeTax } = shop.settings;
  const kept = pricesIncludeTax ? "with tax in it" : "without tax";
  const blank = {
    id: 0,
    version: 1,
    code: "",
    name: "",
    ratePerHourMinor: 0,
    costPerHourMinor: 0,
    rateSet: false,
  };
  return (
    <>
      <PageHead of={shop.name} title="Labour and markup" sub="New quotes use these; sent ones keep theirs." />
      <Section title={`An hour of work, in ${currency}`}>
        <ul className="max-w-[900px]">
          {[...grades, blank].map((grade) => (
            <li key={grade.id} className="border-hair border-b py-3">
              <Form
                action={saveLabourGrade}
                shop={slug}
                hidden={{ id: grade.id ? String(grade.id) : "", version: String(grade.version) }}
                label={grade.name || "New grade"}
                className="grid items-end gap-3 sm:grid-cols-2 lg:grid-cols-[1fr_1fr_1fr_1fr_auto]"
              >
                <TextField
                  name="name"
                  label={grade.id ? "Grade" : "New grade"}
                  initial={grade.name}
                  required
                />
                <TextField name="code" label="Code" initial={grade.code} mono required />
                <TextField
                  name="rate"
                  label={`Price, ${kept}`}
                  initial={grade.id && grade.rateSet ? majorText(grade.ratePerHourMinor, currency) : ""}
                  inputMode="decimal"
                  mono
                  required
                />
                <TextField
                  name="cost"
                  label="Cost, without tax"
                  initial={grade.id && grade.rateSet ? majorText(grade.costPerHourMinor, currency) : ""}
                  inputMode="decimal"
                  mono
                  required
                />
                <SubmitButton tone="second">{grade.id ? "Save" : "Add"}</SubmitButton>
              </Form>
            </li>
          ))}
        </ul>
      </Section>
      <Section title="Markup on parts without a set price">
        <Form action={saveMarkup} shop={slug} label="Markup bands" className="max-w-[520px]">
          <TextArea
            name="bands"
            label="Unit cost up to = markup in %"
            hint="One band a line, rising: 10 = 100 means parts costing up to 10 carry 100 %. Last line: more = 35."
            initial={bands
              .map((b) => `${b.upToE4 === null ? "more" : b.upToE4 / 10_000} = ${b.markupBp / 100}`)
              .join("\n")}
            rows={Math.max(4, bands.length + 1)}
          />
          <SubmitButton tone="second" className="mt-3">
            Save markup
          </SubmitButton>
        </Form>
      </Section>
    </>
  );
}
