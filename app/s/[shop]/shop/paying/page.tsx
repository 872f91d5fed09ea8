import { HowToPay } from "@/app/_documents/HowToPay";
import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { accountOf, payAskFor } from "@/lib/data/shop/account";
import {
  ACCOUNT_FORMS,
  type AccountForm,
  accountFields,
  accountFormOf,
  mayHaveIban,
} from "@/lib/domain/money/account";
import { open } from "@/lib/gate/open";
import { keepAccount, takeAccountOff } from "./actions";

const FORM_NAMES: Readonly<Record<AccountForm, string>> = {
  au: "Australia: BSB and account number",
  nz: "New Zealand: bank, branch, account and suffix",
  no: "Norway: kontonummer",
  gb: "United Kingdom: sort code and account number",
  us: "United States: routing and account number",
  iban: "Elsewhere: IBAN",
};

const BRANCH_LABELS: Readonly<Record<AccountForm, string>> = {
  au: "BSB",
  nz: "Bank and branch",
  no: "",
  gb: "Sort code",
  us: "Routing number",
  iban: "",
};

/** The account that customers pay to, in the fields of its country, and how papers will say it. */
export default async function PayingPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ form?: string | string[] }>;
}) {
  const [{ shop: slug }, { form: asked }] = await Promise.all([params, searchParams]);
  const shop = await open("shop.write", slug);
  const { settings: s } = shop;
  const kept = await accountOf(shop.read);
  const form = ACCOUNT_FORMS.find((one) => one === asked) ?? kept?.form ?? accountFormOf(s.country);
  const has = accountFields(form);
  const initial = kept?.form === form ? kept : null;
  return (
    <>
      <PageHead of={shop.name} title="How you are paid" />
      <p className="mb-5 max-w-prose">
        This stands wherever money is asked for: on invoices and deposit requests, in letters, and on the
        customer's own pages, each with a reference by which the payment is recognised. What was issued so far
        keeps what it printed.
      </p>
      <div className="grid gap-x-10 rail:grid-cols-2">
        <Section title="The account">
          <Form
            key={form}
            action={keepAccount}
            shop={slug}
            hidden={{ version: String(kept?.version ?? 0), form }}
            label="The account"
          >
            <p className="mb-3 font-semibold">{FORM_NAMES[form]}</p>
            <TextField
              name="holder"
              label="Account name"
              initial={initial?.holder ?? (s.legalName || s.name)}
              maxLength={70}
              required
            />
            {has.branch && (
              <TextField
                name="branch"
                label={BRANCH_LABELS[form]}
                initial={initial?.branch}
                inputMode="numeric"
                mono
                required
              />
            )}
            {has.number && (
              <TextField
                name="number"
                label={form === "nz" ? "Account number with its suffix" : "Account number"}
                initial={initial?.number}
                inputMode="numeric"
                mono
                required
              />
            )}
            {mayHaveIban(form) && (
              <>
                <TextField
                  name="iban"
                  label={has.number ? "IBAN, for payments from abroad (may stay empty)" : "IBAN"}
                  initial={initial?.iban}
                  mono
                  required={!has.number}
                />
                <TextField name="bic" label="BIC (may stay empty)" initial={initial?.bic} mono />
              </>
            )}
            {form === "no" && (
              <CheckField
                name="kid"
                label="References are KIDs"
                detail="Eleven digits with a check digit by modulus 10. Agree it with your bank first: it refuses payments with other references then."
                initial={initial?.kid ?? false}
              />
            )}
            <SubmitButton>Save the account</SubmitButton>
          </Form>
          {kept && (
            <Form
              action={takeAccountOff}
              shop={slug}
              hidden={{ version: String(kept.version) }}
              label="No account"
              className="mt-4"
            >
              <SubmitButton tone="quiet">Print no account</SubmitButton>
            </Form>
          )}
        </Section>
        <div>
          {kept && (
            <Section title="As papers say it">
              <HowToPay
                ask={await payAskFor(shop.read, { kind: "invoice", number: 2001, written: "2001" })}
                currency={s.currency}
                amountMinor={12_345}
                locale={s.locale}
              />
            </Section>
          )}
          <Section title="Written in another way">
            <ul>
              {ACCOUNT_FORMS.filter((one) => one !== form).map((one) => (
                <li key={one}>
                  <Link
                    href={`/s/${slug}/shop/paying?form=${one}`}
                    className="inline-flex min-h-11 items-center underline decoration-hair underline-offset-4 hover:decoration-ink pointer-coarse:min-h-12"
                  >
                    {FORM_NAMES[one]}
                  </Link>
                </li>
              ))}
            </ul>
          </Section>
        </div>
      </div>
    </>
  );
}
