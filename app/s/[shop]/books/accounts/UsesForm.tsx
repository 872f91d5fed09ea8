import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { ACCOUNT_USES, fitsUse, nameOfUse } from "@/lib/domain/ledger/accounts";
import type { Chart } from "@/lib/domain/ledger/book";
import { mapAccounts } from "./actions";

/** Which account takes what happens; each choice offers the accounts whose kind fits. */
export function UsesForm({ slug, version, chart }: { slug: string; version: number; chart: Chart }) {
  return (
    <Form
      action={mapAccounts}
      shop={slug}
      hidden={{ version: String(version) }}
      label="Which account takes what"
      className="max-w-3xl"
    >
      <div className="grid gap-x-6 sm:grid-cols-2">
        {ACCOUNT_USES.map((use) => (
          <SelectField
            key={use}
            name={`uses.${use}`}
            label={nameOfUse(use)}
            initial={chart.uses[use]}
            options={chart.accounts
              .filter((account) => fitsUse(use, account.kind))
              .map(({ code, name }) => ({ value: code, label: `${code} ${name}` }))}
          />
        ))}
      </div>
      <SubmitButton>Save the choices</SubmitButton>
    </Form>
  );
}
