import { KeepMine } from "@/app/_ui/KeepMine";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import type { Writing } from "@/lib/schemas/whileWriting";
import { PART_WORDS } from "../partWords";
import { KeyField } from "./KeyField";
import { LiveProblems } from "./LiveProblems";

/** The foot of every item's form: its key, what the checks say of it, saving over someone else's change, and the acts. */
export function FormEnd({ writing, itemKey }: { writing: Writing; itemKey: string }) {
  const { one } = PART_WORDS[writing.part];
  const fresh = itemKey === "";
  return (
    <div className="mt-2 max-w-[46rem] border-rule border-t pt-4">
      {!fresh && writing.part !== "rules" && <KeyField itemKey={itemKey} />}
      <LiveProblems writing={writing} one={one} />
      <KeepMine />
      <div className="flex flex-wrap gap-3">
        <SubmitButton size="act" className="max-sm:w-full">{`Save the ${one}`}</SubmitButton>
        {fresh && (
          <SubmitButton size="act" tone="second" name="next" value="another" className="max-sm:w-full">
            {`Save it and add another ${one}`}
          </SubmitButton>
        )}
      </div>
    </div>
  );
}
