import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import type { CautionEntry, CheckEntry } from "@/lib/domain/library/entry";
import { PROCEDURES } from "@/lib/domain/procedures/procedures";
import { saveCautionEntry, saveCheckEntry } from "./actions";
import { EntryEnd } from "./EntryEnd";
import { EntryHead } from "./EntryHead";

interface Props {
  slug: string;
  hidden: Readonly<Record<string, string>>;
  kind: "caution" | "check";
  entry: CautionEntry | CheckEntry | undefined;
}

/** A caution or a check: its words, and for a check the procedure that tells how. */
export function LineEntryForm({ slug, hidden, kind, entry }: Props) {
  return (
    <Form
      action={kind === "caution" ? saveCautionEntry : saveCheckEntry}
      shop={slug}
      hidden={hidden}
      label={kind === "caution" ? "Caution" : "Check"}
      className="max-w-[46rem]"
    >
      <EntryHead entry={entry} wordy />
      {kind === "check" && (
        <SelectField
          name="procedure"
          label="Measuring procedure"
          initial={(entry?.kind === "check" && entry.procedure) || ""}
          options={[
            { value: "", label: "none" },
            ...PROCEDURES.map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
      )}
      <EntryEnd entry={entry} kind={kind} />
    </Form>
  );
}
