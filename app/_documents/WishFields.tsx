"use client";
import { useContext } from "react";
import { CheckField } from "@/app/_ui/CheckField";
import { ChoiceField } from "@/app/_ui/ChoiceField";
import { DateField } from "@/app/_ui/DateField";
import { FormContext } from "@/app/_ui/formContext";
import { TextField } from "@/app/_ui/TextField";

export type WishWords = Readonly<
  Record<"title" | "when" | "talk" | "soon" | "from" | "fromDay" | "notDays" | "dayNote", string>
>;

interface Props {
  /** What it says: to the customer in their language, or to the desk. */
  words: WishWords;
  /** The shop's day: earlier ones are over. */
  today: string;
  weekdays: readonly { value: string; name: string }[];
  /** The form days are typed in, on a page outside the shop. */
  locale?: string;
}

/** When the work would suit; everything may stay empty. It opens by itself when something in it was typed and refused. */
export function WishFields({ words, today, weekdays, locale }: Props) {
  const { values, seq } = useContext(FormContext);
  const typed = Object.entries(values ?? {}).some(
    ([name, value]) => name.startsWith("wish") && value.length > 0 && value !== "",
  );
  return (
    <details key={seq} open={typed} className="mb-4">
      <summary className="inline-flex min-h-12 items-center font-semibold text-brass underline underline-offset-[5px]">
        {words.title}
      </summary>
      <div className="mt-2">
        <ChoiceField
          name="wishWhen"
          label={words.when}
          options={[
            { value: "", label: words.talk },
            { value: "soon", label: words.soon },
            { value: "from", label: words.from },
          ]}
        />
        <DateField name="wishFrom" label={words.fromDay} min={today} locale={locale} />
        <fieldset className="mb-4">
          <legend className="mb-1 font-semibold text-[15px]">{words.notDays}</legend>
          <div className="grid grid-cols-2 gap-x-4 sm:grid-cols-3">
            {weekdays.map((day) => (
              <CheckField key={day.value} name="wishNot[]" value={day.value} label={day.name} />
            ))}
          </div>
        </fieldset>
        <TextField name="wishNote" label={words.dayNote} maxLength={300} />
      </div>
    </details>
  );
}
