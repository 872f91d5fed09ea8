"use client";
import { DateField } from "@/app/_ui/DateField";
import { NumberField } from "@/app/_ui/NumberField";
import { TextArea } from "@/app/_ui/TextArea";

export interface AroundFieldsProps {
  minutes: number;
  dropOff?: string | undefined;
  pickUp?: string | undefined;
  note?: string | undefined;
}

/** When the bike comes and goes, how long the work is, and what else to know. */
export function AroundFields({ minutes, dropOff, pickUp, note }: AroundFieldsProps) {
  return (
    <>
      <div className="grid grid-cols-[repeat(auto-fit,minmax(min(17rem,100%),1fr))] gap-x-5">
        <DateField
          name="dropOff"
          label="The bike comes"
          kind="datetime-local"
          initial={dropOff}
          hint="Empty: as the work starts."
        />
        <DateField
          name="pickUp"
          label="It is fetched"
          kind="datetime-local"
          initial={pickUp}
          hint="Empty: when the work ends."
        />
        <NumberField
          name="minutes"
          label="Minutes of work"
          initial={minutes}
          step={15}
          min={5}
          hint="As planned, over working hours only."
        />
      </div>
      <TextArea name="note" label="Note" initial={note} />
    </>
  );
}
