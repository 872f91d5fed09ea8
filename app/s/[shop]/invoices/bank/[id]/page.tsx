import { notFound } from "next/navigation";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { moneyText } from "@/app/_ui/moneyText";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { getBankLine } from "@/lib/data/bank/lines";
import { openItems } from "@/lib/data/bank/openItems";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { pickCustomers, pickedCustomer } from "@/lib/data/customers/pick";
import type { OpenItem } from "@/lib/domain/bank/types";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { ASIDE_WORDS } from "@/lib/schemas/bank";
import { idIn } from "@/lib/schemas/ids";
import { putAside, split } from "../actions";
import { LineText } from "../LineText";
import { Proposed } from "../Proposed";
import { PickCustomer } from "./PickCustomer";

/** One line that came in: whose it is, which papers it pays, or why it pays none. */
export default async function BankLinePage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ customer?: string | string[] }>;
}) {
  const [{ shop: slug, id }, { customer: asked }] = await Promise.all([params, searchParams]);
  const shop = await open("payment.write", slug);
  const line = await getBankLine(shop, pathId(id));
  if (!line) notFound();
  const { currency, locale } = shop.settings;
  const { proposal } = line;
  const customerId =
    idIn(typeof asked === "string" ? asked : undefined) ?? proposal?.takes[0]?.item.customerId ?? null;
  const customer = await pickedCustomer(shop, customerId);
  const items = customer
    ? (await openItems(shop.read, Number(customer.value))).filter((item) => item.leftMinor > 0)
    : [];
  const seen = { id: String(line.id), version: String(line.version) };
  const waits = line.state === "waiting";
  return (
    <>
      <PageHead of={shop.name} title="A line of the bank's list" />
      <Section title="What the bank says">
        <div className="max-w-prose">
          <LineText line={line} currency={currency} locale={locale} />
          {proposal && <Proposed proposal={proposal} currency={currency} locale={locale} />}
          {!waits && (
            <p className="mt-2">This line is decided: see the lists of booked ones and those set aside.</p>
          )}
        </div>
      </Section>
      {waits && line.amountMinor > 0 && (
        <Section title="What it pays">
          <PickCustomer
            shop={slug}
            line={line.id}
            newest={(await pickCustomers(shop, "", MOST_NEWEST)).rows}
            chosen={customer}
          />
          {customer && (
            <Form
              key={customer.value}
              action={split}
              shop={slug}
              hidden={{ ...seen, customerId: customer.value }}
              label="What it pays"
              className="max-w-md"
            >
              {items.map((item) => (
                <TextField
                  key={fieldOf(item)}
                  name={`pays.${fieldOf(item)}`}
                  label={`${item.kind === "invoice" ? "Invoice" : "Deposit of quote"} ${item.written}, ${currency}`}
                  hint={`${moneyText(item.leftMinor, currency, locale)} is open. Empty pays nothing of it.`}
                  inputMode="decimal"
                  mono
                  initial={initialOf(item, items, line, locale, currency)}
                />
              ))}
              <p className="mb-3 max-w-prose">
                {items.length === 0
                  ? `Nothing is open of ${customer.label}: all of it is kept as their balance.`
                  : "What is over is kept as the customer's balance, with an invoice."}
              </p>
              <SubmitButton>{items.length === 0 ? "Keep it as the balance" : "Book it so"}</SubmitButton>
            </Form>
          )}
        </Section>
      )}
      {waits && (
        <Section title="It pays nothing here">
          <Form action={putAside} shop={slug} hidden={seen} label="Set aside" className="max-w-md">
            <ChoiceField
              name="reason"
              label="Why"
              options={Object.entries(ASIDE_WORDS).map(([value, label]) => ({ value, label }))}
            />
            <SubmitButton tone="second">Set it aside</SubmitButton>
          </Form>
        </Section>
      )}
    </>
  );
}

const fieldOf = ({ kind, id }: OpenItem) => `${kind}-${id}`;

type Line = NonNullable<Awaited<ReturnType<typeof getBankLine>>>;

/** What is proposed; for another customer the oldest first, as far as the money goes. */
function initialOf(
  item: OpenItem,
  items: readonly OpenItem[],
  { proposal, amountMinor }: Line,
  locale: string,
  currency: string,
): string {
  const own = proposal?.takes.some((take) => take.item.customerId === item.customerId);
  const before = items.slice(0, items.indexOf(item)).reduce((sum, one) => sum + one.leftMinor, 0);
  const minor = own
    ? (proposal?.takes.find((take) => take.item.kind === item.kind && take.item.id === item.id)?.minor ?? 0)
    : Math.min(item.leftMinor, Math.max(0, amountMinor - before));
  return minor > 0 ? moneyText(minor, currency, locale) : "";
}
