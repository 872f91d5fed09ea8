import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { ACCOUNT_KINDS, type LedgerAccount } from "@/lib/domain/ledger/accounts";
import { editAccount, makeAccount } from "./actions";

/** An account's number, name and kind; where the tax office groups accounts, its group too. */
export function AccountForm({
  slug,
  version,
  account,
  grouped,
}: {
  slug: string;
  version: number;
  account?: LedgerAccount;
  /** The country's audit file names a group for each account. */
  grouped: boolean;
}) {
  return (
    <Form
      action={account ? editAccount : makeAccount}
      shop={slug}
      hidden={{ version: String(version), ...(account ? { was: account.code } : {}) }}
      label={account ? `Account ${account.code}` : "New account"}
      className="max-w-md"
    >
      <TextField name="code" label="Number" mono initial={account?.code} maxLength={20} required />
      <TextField name="name" label="Name" initial={account?.name} maxLength={120} required />
      <SelectField
        name="kind"
        label="Kind"
        initial={account?.kind ?? "expense"}
        options={ACCOUNT_KINDS.map((kind) => ({ value: kind, label: kind }))}
      />
      {grouped && (
        <>
          <TextField
            name="groupCategory"
            label="Group of the tax office"
            hint="GroupingCategory of SAF-T Financial: salgsinntekt, kortsiktigGjeld"
            initial={account?.groupCategory}
            maxLength={60}
          />
          <TextField
            name="groupCode"
            label="Code in that group"
            hint="GroupingCode: 3000"
            mono
            initial={account?.groupCode}
            maxLength={20}
          />
        </>
      )}
      <SubmitButton tone={account ? "main" : "second"}>
        {account ? "Save the account" : "Add the account"}
      </SubmitButton>
    </Form>
  );
}
