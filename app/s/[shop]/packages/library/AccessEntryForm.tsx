import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import type { AccessEntry } from "@/lib/domain/library/entry";
import { Keys } from "../[id]/edit/[part]/Keys";
import { saveAccessEntry } from "./actions";
import { EntryEnd } from "./EntryEnd";
import { EntryHand } from "./EntryHand";
import { EntryHead } from "./EntryHead";

export interface EntryFormProps<T> {
  slug: string;
  hidden: Readonly<Record<string, string>>;
  entry: T | undefined;
  /** Entries of the library that it may name. */
  accesses: readonly { readonly key: string; readonly name: string }[];
  operations: readonly { readonly key: string; readonly name: string }[];
}

export function AccessEntryForm({ slug, hidden, entry, accesses }: EntryFormProps<AccessEntry>) {
  const others = accesses.filter(({ key }) => key !== entry?.key);
  return (
    <Form action={saveAccessEntry} shop={slug} hidden={hidden} label="Access" className="max-w-[46rem]">
      <EntryHead entry={entry} />
      <div className="grid gap-x-6 sm:grid-cols-2">
        <TextField name="openAs" label="On the card, opening it reads" initial={entry?.openAs} />
        <TextField name="closeAs" label="Closing it reads" initial={entry?.closeAs} />
        <NumberField
          name="openMinutes"
          label="Minutes off"
          unit="min"
          initial={entry?.openMinutes}
          min={0}
          required
        />
        <NumberField
          name="closeMinutes"
          label="Minutes on"
          unit="min"
          initial={entry?.closeMinutes}
          min={0}
          required
        />
      </div>
      <EntryHand entry={entry} breaks="What breaks here">
        <TextArea
          name="closingChecks"
          label="Checked on closing"
          hint="One a line: hoses, kinks, O-rings, grommets, notches, cable free"
          initial={entry?.closingChecks.join("\n")}
        />
      </EntryHand>
      <CheckField
        name="fuelOpen"
        label="The fuel system is open with it"
        detail="Nothing that makes swarf or dust is done meanwhile"
        initial={entry?.fuelOpen ?? false}
      />
      <Keys
        name="needs"
        legend="Needs open first"
        of={others}
        ticked={entry?.needs ?? []}
        none="Nothing else yet."
      />
      <Keys
        name="excludes"
        legend="Never open together with"
        of={others}
        ticked={entry?.excludes ?? []}
        none="Nothing else yet."
      />
      <EntryEnd entry={entry} kind="access" />
    </Form>
  );
}
