import { KeepMine } from "@/app/_ui/KeepMine";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { COMMON_PRACTICE, type LibraryEntry } from "@/lib/domain/library/entry";
import { KIND_WORDS } from "./entryWords";

/** The foot of every entry's form: what it rests on, and saving. */
export function EntryEnd({ entry, kind }: { entry: LibraryEntry | undefined; kind: LibraryEntry["kind"] }) {
  return (
    <>
      <TextField
        name="source"
        label="What it rests on"
        hint={`A manual and page, your own jobs, or “${COMMON_PRACTICE}”`}
        initial={entry?.source ?? ""}
        maxLength={120}
      />
      <KeepMine />
      <SubmitButton size="act" className="max-sm:w-full">{`Save the ${KIND_WORDS[kind].one}`}</SubmitButton>
    </>
  );
}
