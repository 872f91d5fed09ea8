import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { numberSeries } from "@/lib/data/shop/numbers";
import { MOST_PREFIX, numberIn, placeOf, writtenNumber } from "@/lib/domain/numbers/series";
import { dayIn } from "@/lib/domain/schedule/days";
import { open } from "@/lib/gate/open";
import { chooseFirst } from "./actions";

/** Where each series of numbers stands; one that has not begun may begin at a number of the shop's own. */
export default async function NumbersPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("shop.write", slug);
  const series = await numberSeries(shop);
  const year = Number(dayIn(shop.settings.zone, shop.now).slice(0, 4));
  return (
    <>
      <PageHead of={shop.name} title="Numbers" />
      <p className="mb-5 max-w-prose">
        Each kind of document has numbers of its own, one after the other and without gaps. Before the first
        one you can begin where your books ended, and give each a prefix or a series of its own for each year;
        after it the numbers go on by themselves.
      </p>
      {series.map(({ kind, name, prefix, yearly, next, nextWritten, begun }) => (
        <Section key={kind} title={name}>
          {begun ? (
            <p>
              The next one is <span className="font-mono">{nextWritten}</span>
              {yearly && ", and each year begins at 1 again"}.
            </p>
          ) : (
            <Form
              action={chooseFirst}
              shop={slug}
              hidden={{ kind }}
              label={`First number of ${name.toLowerCase()}`}
              className="max-w-md"
            >
              <TextField
                name="prefix"
                label="Prefix"
                hint="Stands before each number: F-2001. Empty for none."
                mono
                initial={prefix}
                maxLength={MOST_PREFIX}
              />
              <ChoiceField
                name="yearly"
                label="In a new year"
                initial={yearly ? "on" : "off"}
                options={[
                  { value: "off", label: "The numbers go on" },
                  {
                    value: "on",
                    label: "They begin at 1 again",
                    detail: `Each says its year: ${writtenNumber({ prefix, yearly: true }, numberIn(year, 1))}`,
                  },
                ]}
              />
              <TextField
                name="first"
                label="First number"
                hint="Of numbers that begin again each year: the next one in this year."
                inputMode="numeric"
                mono
                initial={String(yearly ? placeOf(next) : next)}
                maxLength={9}
                required
              />
              <p className="mb-3 text-[15px]">
                As it stands now, the first one is <span className="font-mono">{nextWritten}</span>.
              </p>
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
