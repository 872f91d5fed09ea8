import { SelectField } from "@/app/_ui/SelectField";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import type { LibraryEntry } from "@/lib/domain/library/entry";
import { FAMILIES, PLACES } from "@/lib/domain/library/places";
import { Keys } from "../[id]/edit/[part]/Keys";

/** What every entry says of itself: its name or words, where it belongs, which families it is for. */
export function EntryHead({ entry, wordy }: { entry: LibraryEntry | undefined; wordy?: boolean }) {
  return (
    <>
      {wordy ? (
        <TextArea
          name="name"
          label="Words"
          hint="As they stand on the card"
          rows={2}
          initial={entry?.name}
          required
          maxLength={300}
        />
      ) : (
        <TextField name="name" label="Name" initial={entry?.name} required maxLength={120} />
      )}
      <SelectField
        name="place"
        label="Place"
        initial={entry?.place ?? PLACES[0].key}
        options={PLACES.map(({ key, name }) => ({ value: key, label: name }))}
      />
      <Keys
        name="families"
        legend="For"
        hint="None ticked: all of them"
        of={FAMILIES}
        ticked={entry?.families ?? []}
        none=""
      />
    </>
  );
}
