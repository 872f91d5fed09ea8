import { Form } from "@/app/_ui/Form";
import { TextField } from "@/app/_ui/TextField";
import type { CautionEntry, CheckEntry } from "@/lib/domain/library/entry";
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
        <TextField
          name="procedure"
          label="Measuring procedure"
          hint="Its name as its address has it, such as float-height-by-gauge; empty: none"
          initial={entry?.kind === "check" ? entry.procedure : undefined}
          mono
          maxLength={60}
        />
      )}
      <EntryEnd entry={entry} kind={kind} />
    </Form>
  );
}
