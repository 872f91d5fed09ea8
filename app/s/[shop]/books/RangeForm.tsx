import NextForm from "next/form";
import { DateField } from "@/app/_ui/DateField";
import { SubmitButton } from "@/app/_ui/SubmitButton";

/** Chooses the days that a page of the books is about; both count. */
export function RangeForm({
  action,
  range,
  kept,
}: {
  action: string;
  range: { readonly from: string; readonly to: string };
  /** What else the address says. */
  kept?: Readonly<Record<string, string>>;
}) {
  return (
    <NextForm action={action} className="mb-2 flex max-w-xl flex-wrap items-end gap-2.5" aria-label="Days">
      {Object.entries(kept ?? {}).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <DateField name="from" label="From" initial={range.from} className="min-w-40 flex-1" />
      <DateField name="to" label="To" initial={range.to} className="min-w-40 flex-1" />
      <div className="mb-4">
        <SubmitButton tone="second">Show</SubmitButton>
      </div>
    </NextForm>
  );
}
