import { Caution } from "@/app/_ui/Caution";
import { Form } from "@/app/_ui/Form";
import { OdometerField } from "@/app/_ui/OdometerField";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { ride } from "../../actions";
import { CONDITION_WORDS, choices, ENGINE_WORDS, SIGN_WORDS, THROTTLE_WORDS } from "../rideWords";

interface RideFormProps {
  jobId: number;
  version: number;
  slug: string;
  /** The unit of the shop's odometers. */
  distance: "km" | "mi";
}

const ROWS = [0, 1, 2, 3, 4, 5];

/** A ride is all good in one tap; or it says at which throttle position, doing what, it felt how. */
export function RideForm({ jobId, version, slug, distance }: RideFormProps) {
  const hidden = { jobId: String(jobId), version: String(version) };
  return (
    <>
      <Caution title="On the ride.">
        A closed or quiet road, throttle and slide free, brakes tried. Read no instrument while riding: stop,
        then write.
      </Caution>
      <Form
        action={ride}
        shop={slug}
        hidden={hidden}
        label="The ride"
        keep={`ride ${jobId}`}
        className="max-w-3xl"
      >
        <div className="max-w-xl">
          <OdometerField label="Odometer" unit={distance} />
          <SubmitButton size="act" className="mb-6 w-full" name="good" value="yes">
            All good at every throttle position
          </SubmitButton>
        </div>
        <p className="mb-2 font-semibold">Or: something was not good</p>
        {ROWS.slice(0, 2).map((at) => (
          <Row key={at} at={at} />
        ))}
        <details className="mb-3">
          <summary className="in-line text-brass">More observations</summary>
          {ROWS.slice(2).map((at) => (
            <Row key={at} at={at} />
          ))}
        </details>
        <TextField name="note" label="Note on the whole ride" maxLength={1000} />
        <SubmitButton tone="second" name="good" value="no">
          Keep it and see what to change
        </SubmitButton>
      </Form>
    </>
  );
}

function Row({ at }: { at: number }) {
  const name = (part: string) => `observations.${at}.${part}`;
  const blank = { value: "", label: "—" };
  return (
    <fieldset className="mt-2 border-hair border-b pb-1">
      <legend className="text-[14px] text-soft">Observation {at + 1}</legend>
      <div className="grid grid-cols-2 gap-x-3 sm:grid-cols-4">
        <SelectField
          name={name("throttle")}
          label="Throttle"
          options={choices(THROTTLE_WORDS)}
          initial="quarter"
        />
        <SelectField
          name={name("condition")}
          label="Doing what"
          options={choices(CONDITION_WORDS)}
          initial="steady"
        />
        <SelectField name={name("engine")} label="Engine" options={choices(ENGINE_WORDS)} initial="hot" />
        <SelectField
          name={name("sign")}
          label="What it does"
          options={[blank, ...choices(SIGN_WORDS)]}
          initial=""
        />
      </div>
      <TextField name={name("note")} label="In your words" maxLength={300} />
    </fieldset>
  );
}
