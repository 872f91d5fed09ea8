import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { getPriceBook } from "@/lib/data/quotes/terms";
import { open } from "@/lib/gate/open";
import { currencyDigits, plainAmount } from "../../packages/plainAmount";
import { saveBook } from "../actions";

/** How quotes round, and until when the shop's prices are good. Rates and markups stand in the shop's own settings. */
export default async function PriceBook({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("shop.write", slug);
  const book = await getPriceBook(shop);
  const { currency, locale } = shop.settings;
  const to = book.roundDownToMinor;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Price book"
        sub="For every new price that a quote computes"
        actions={
          <>
            <LinkButton href={`/s/${slug}/shop/prices`}>Rates and markups</LinkButton>
            <LinkButton href={`/s/${slug}/quotes`}>To the quotes</LinkButton>
          </>
        }
      />
      <Form
        key={book.version}
        action={saveBook}
        shop={slug}
        hidden={{ version: String(book.version) }}
        label="Price book"
        className="max-w-[36rem]"
      >
        <TextField
          name="roundDownTo"
          label={`Round the total down to whole, ${currency}`}
          hint="5 brings 387.62 to 385.00. Empty: to the cent. Totals already sent stay as they are."
          initial={to === 0 ? "" : plainAmount(to, currencyDigits(currency), locale)}
          inputMode="decimal"
          mono
        />
        <div className="grid gap-x-6 sm:grid-cols-2">
          <DateField name="pricesFrom" label="Prices set on" initial={book.pricesFrom ?? ""} />
          <DateField
            name="pricesUntil"
            label="Prices good until"
            hint="A quote that is valid for longer says so to you"
            initial={book.pricesUntil ?? ""}
          />
        </div>
        <SubmitButton>Save the price book</SubmitButton>
      </Form>
    </>
  );
}
