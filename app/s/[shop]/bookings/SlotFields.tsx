"use client";
import { DateField } from "@/app/_ui/DateField";
import { SelectField } from "@/app/_ui/SelectField";

export interface SlotFieldsProps {
  bays: readonly { id: number; name: string }[];
  people: readonly { id: number; name: string }[];
  day: string;
  time: string;
  bayId?: number | undefined;
  staffId?: number | undefined;
}

const choices = (rows: readonly { id: number; name: string }[]) =>
  rows.map((row) => ({ value: String(row.id), label: row.name }));

/** Day, time, bay and person of a booking. */
export function SlotFields({ bays, people, day, time, bayId, staffId }: SlotFieldsProps) {
  return (
    <div className="grid grid-cols-[repeat(auto-fit,minmax(min(13rem,100%),1fr))] gap-x-5">
      <DateField name="day" label="Day" initial={day} />
      <DateField name="time" label="Start" kind="time" initial={time} />
      <SelectField
        name="bayId"
        label="Bay"
        options={choices(bays)}
        initial={String(bayId ?? bays[0]?.id ?? "")}
      />
      <SelectField
        name="staffId"
        label="Who"
        options={choices(people)}
        initial={String(staffId ?? people[0]?.id ?? "")}
      />
    </div>
  );
}
