import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";

/** What the journal holds and what it does not, so that nobody takes it for all of the books. */
export function WhatIsIn({
  slug,
  stockToo,
  source,
}: {
  slug: string;
  stockToo: boolean;
  source: string | null;
}) {
  return (
    <Section title="What is in it, and what is not" className="mt-8 max-w-prose">
      <ul className="list-disc pl-5">
        <li>
          Invoices, credit notes and receipts as issued; deposits, payments, money given back, bounced
          payments, over-payments, write-offs and cash rounding as recorded; what the counted drawer had over
          or short, what left it, and what was put in. Nothing is stored twice: each entry is worked out from
          its document or payment.
        </li>
        <li>
          A deposit is a liability until its invoice takes it off. A write-off takes the whole amount, tax
          included, to the loss: the tax stays as it was invoiced, and your accountant claims it back where
          the law lets you.
        </li>
        <li>
          {stockToo
            ? "Stock at cost: received goods stand against a liability until your accountant enters the supplier's invoice."
            : "Stock and the cost of parts are left out."}{" "}
          Suppliers' invoices, wages, rent and bank charges are not entered in this product.
        </li>
        <li>
          Income and expense begin each year at nothing; what they came to stands on the account of prior
          results.
        </li>
      </ul>
      <p className="mt-3">
        {source && <>The accounts are a starting chart: {source} </>}
        <Link href={`/s/${slug}/books/accounts`} className="text-brass underline underline-offset-4">
          Accounts and opening balances
        </Link>
      </p>
    </Section>
  );
}
