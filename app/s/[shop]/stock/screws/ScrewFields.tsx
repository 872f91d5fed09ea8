import { NumberField } from "@/app/_ui/NumberField";
import { SelectField } from "@/app/_ui/SelectField";
import { DRIVES, HEADS, type Screw } from "@/lib/domain/stock/screws";

/** A screw by what a caliper and an eye tell: thread, length under the head, head and drive. */
export function ScrewFields({
  screw,
  errors = {},
}: {
  screw: Partial<Record<keyof Screw, string | number>> | null;
  errors?: Readonly<Record<string, string>>;
}) {
  const choice = (words: readonly string[]) => words.map((value) => ({ value, label: value }));
  return (
    <div className="grid grid-cols-2 gap-x-4 sm:grid-cols-3">
      <NumberField
        name="diameterMm"
        label="Thread, M"
        step={0.5}
        decimals={1}
        initial={screw?.diameterMm}
        error={errors.diameterMm}
        required
      />
      <NumberField
        name="pitchMm"
        label="Pitch"
        unit="mm"
        hint="Empty: coarse"
        step={0.05}
        decimals={2}
        initial={screw?.pitchMm}
        error={errors.pitchMm}
      />
      <NumberField
        name="lengthMm"
        label="Length under the head"
        unit="mm"
        step={1}
        decimals={1}
        initial={screw?.lengthMm}
        error={errors.lengthMm}
        required
      />
      <SelectField name="head" label="Head" initial={text(screw?.head) || HEADS[0]} options={choice(HEADS)} />
      <SelectField
        name="drive"
        label="Drive"
        initial={text(screw?.drive) || DRIVES[0]}
        options={choice(DRIVES)}
        className="sm:col-span-2"
      />
    </div>
  );
}

const text = (value: string | number | undefined) => (value === undefined ? "" : String(value));
