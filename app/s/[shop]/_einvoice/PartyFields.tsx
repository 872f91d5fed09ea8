import { SelectField } from "@/app/_ui/SelectField";
import { TextField } from "@/app/_ui/TextField";
import { ADDRESS_SCHEMES } from "@/lib/domain/einvoice/schemes";

interface Party {
  readonly street: string;
  readonly city: string;
  readonly postcode: string;
  readonly registerNumber: string;
  readonly scheme: string;
  readonly electronicAddress: string;
}

/** What e-invoices say of a seller or a buyer: number, electronic address, and the address in its parts. */
export function PartyFields({
  party,
  number,
  else: otherwise,
}: {
  party: Party;
  number: string;
  else: string;
}) {
  return (
    <>
      <TextField
        name="registerNumber"
        label={number}
        initial={party.registerNumber}
        hint={`Empty: ${otherwise}, where that is one.`}
        maxLength={40}
        mono
      />
      <div className="grid gap-x-5 sm:grid-cols-2">
        <SelectField
          name="scheme"
          label="Electronic address"
          initial={party.scheme}
          options={[
            { value: "", label: "The number above" },
            ...ADDRESS_SCHEMES.map(({ code, name }) => ({ value: code, label: `${name} (${code})` })),
          ]}
        />
        <TextField
          name="electronicAddress"
          label="Its number"
          initial={party.electronicAddress}
          maxLength={60}
          mono
        />
      </div>
      <TextField
        name="street"
        label="Street"
        initial={party.street}
        hint="With street, town and postcode empty, the address stands line by line as it is written elsewhere."
        maxLength={120}
      />
      <div className="grid gap-x-5 sm:grid-cols-2">
        <TextField name="postcode" label="Postcode" initial={party.postcode} maxLength={20} mono />
        <TextField name="city" label="Town" initial={party.city} maxLength={80} />
      </div>
    </>
  );
}
