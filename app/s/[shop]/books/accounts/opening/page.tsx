import { CheckField } from "@/app/_ui/CheckField";
import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { readBook } from "@/lib/data/ledger/chart";
import { majorText } from "@/lib/domain/money/major";
import { dayIn } from "@/lib/domain/schedule/days";
import { open } from "@/lib/gate/open";
import { setOpening } from "../actions";

const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

/** From which day the books are kept here, and what stood on each account then. */
export default async function Opening({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("books.write", slug);
  const { chart, beginning, stockToo, version } = await readBook(shop);
  const { currency, zone } = shop.settings;
  const text = (minor: number) => (minor > 0 ? majorText(minor, currency) : "");
  return (
    <>
      <PageHead of={shop.name} title="Opening balances" />
      <p className="mb-4 max-w-prose">
        Leave the day empty if the books begin with the first document here. Otherwise nothing before that day
        is booked, and what stood on each account then is entered here: what customers owe and deposits among
        it. Debits and credits must come to the same.
      </p>
      <Form action={setOpening} shop={slug} hidden={{ version: String(version) }} label="Opening balances">
        <div className="grid max-w-xl gap-x-6 sm:grid-cols-2">
          <DateField
            name="startsOn"
            label="The books begin here on"
            initial={beginning.startsOn ?? ""}
            max={dayIn(zone, shop.now)}
          />
          <SelectField
            name="yearMonth"
            label="Their year begins in"
            initial={String(beginning.yearMonth)}
            options={MONTHS.map((label, at) => ({ value: String(at + 1), label }))}
          />
        </div>
        <CheckField
          name="stockToo"
          label="Book stock at cost as it comes and goes"
          detail="Received goods stand against a liability until the supplier's invoice is entered by your accountant."
          initial={stockToo}
        />
        <Section title="What stood on the accounts" className="mt-5">
          {chart.accounts.map(({ code, name }, at) => (
            <fieldset
              key={code}
              className="mb-1 grid min-w-0 gap-x-4 border-hair border-b sm:grid-cols-[1fr_160px_160px]"
            >
              <legend className="sr-only">{`${code} ${name}`}</legend>
              <input type="hidden" name={`opening.${at}.code`} value={code} />
              <p className="self-center py-2">
                <span className="font-mono">{code}</span> {name}
              </p>
              <TextField
                name={`opening.${at}.debit`}
                label="Debit"
                inputMode="decimal"
                mono
                maxLength={30}
                initial={text(beginning.opening.get(code) ?? 0)}
              />
              <TextField
                name={`opening.${at}.credit`}
                label="Credit"
                inputMode="decimal"
                mono
                maxLength={30}
                initial={text(0 - (beginning.opening.get(code) ?? 0))}
              />
            </fieldset>
          ))}
        </Section>
        <SubmitButton>Save opening balances</SubmitButton>
      </Form>
    </>
  );
}
