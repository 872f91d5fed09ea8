import { DateField } from "@/app/_ui/DateField";
import { Form } from "@/app/_ui/Form";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { callOn } from "../actions";

interface Props {
  slug: string;
  hidden: Readonly<Record<string, string>>;
  /** The day there is, or nothing. */
  on: string;
}

/** Until which day a quote that is out rests. */
export function CallDayForm({ slug, hidden, on }: Props) {
  return (
    <Form action={callOn} shop={slug} hidden={hidden} label="When to call">
      <DateField name="callOn" label="Day" initial={on} />
      <p className="mb-3 text-[14px] text-soft">
        Until that day it rests; leave it empty to take it off the list.
      </p>
      <SubmitButton>Save the day</SubmitButton>
    </Form>
  );
}
