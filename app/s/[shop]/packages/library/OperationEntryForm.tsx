import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { TextArea } from "@/app/_ui/TextArea";
import type { OperationEntry } from "@/lib/domain/library/entry";
import { WEAR_ITEMS } from "@/lib/domain/tuning/wear";
import { HoldRows } from "../[id]/edit/[part]/HoldRows";
import { Keys } from "../[id]/edit/[part]/Keys";
import { MADE } from "../[id]/edit/[part]/made";
import type { EntryFormProps } from "./AccessEntryForm";
import { saveOperationEntry } from "./actions";
import { EntryEnd } from "./EntryEnd";
import { EntryHand } from "./EntryHand";
import { EntryHead } from "./EntryHead";

export function OperationEntryForm(props: EntryFormProps<OperationEntry>) {
  const { slug, hidden, entry, accesses, operations } = props;
  return (
    <Form action={saveOperationEntry} shop={slug} hidden={hidden} label="Operation">
      <div className="max-w-[46rem]">
        <EntryHead entry={entry} />
        <NumberField
          name="minutes"
          label="Minutes"
          unit="min"
          initial={entry?.minutes}
          min={1}
          required
          className="max-w-60"
        />
        <TextArea name="instruction" label="Instruction on the card" rows={3} initial={entry?.instruction} />
        <Keys
          name="accesses"
          legend="What must be open for it"
          of={accesses}
          ticked={entry?.accesses ?? []}
          none="No access in the library yet."
        />
        <CheckField name="makesSwarf" label="Makes swarf or dust" initial={entry?.makesSwarf ?? false} />
        <Keys
          name="after"
          legend="Comes after"
          of={operations.filter(({ key }) => key !== entry?.key)}
          ticked={entry?.after ?? []}
          none="No other operation yet."
        />
        <Keys
          name="makes"
          legend="Settings and parts that it makes"
          of={MADE}
          ticked={entry?.makes ?? []}
          none=""
        />
        <Keys
          name="inspects"
          legend="Inspects the wear of"
          of={WEAR_ITEMS}
          ticked={entry?.inspects ?? []}
          none=""
        />
      </div>
      <HoldRows rows={entry?.holdPoints ?? []} />
      <div className="max-w-[46rem]">
        <EntryHand entry={entry} />
        <EntryEnd entry={entry} kind="operation" />
      </div>
    </Form>
  );
}
