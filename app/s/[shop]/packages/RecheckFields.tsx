import { NumberField } from "@/app/_ui/NumberField";
import { TextField } from "@/app/_ui/TextField";
import type { Recheck } from "@/lib/domain/packages/recipe";

/** What is looked at again once it has been hot and cold a few times: a follow-up when the job is finished. */
export function RecheckFields({ recheck }: { recheck: Recheck | undefined }) {
  return (
    <div className="grid gap-x-6 sm:grid-cols-[minmax(0,1fr)_9rem_9rem]">
      <TextField
        name="recheckWhat"
        label="Looked at again after heat cycles"
        hint="A follow-up once the job is finished"
        initial={recheck?.what}
        maxLength={160}
      />
      <NumberField name="recheckKm" label="After" unit="km" step={50} initial={recheck?.km} />
      <NumberField name="recheckDays" label="Or after" unit="days" step={5} initial={recheck?.days} />
    </div>
  );
}
