import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { OdometerField } from "@/app/_ui/OdometerField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextArea } from "@/app/_ui/TextArea";
import { finish } from "../../actions";

interface LookOverProps {
  jobId: number;
  version: number;
  slug: string;
  odometer: { unit: "km" | "mi"; value: number | undefined };
}

/** The end of a job that changed no setting: no sheet, one look. */
export function LookOver({ jobId, version, slug, odometer }: LookOverProps) {
  return (
    <Form
      action={finish}
      shop={slug}
      hidden={{ jobId: String(jobId), version: String(version) }}
      label="Finish the job"
      keep={`finish ${jobId}`}
      className="max-w-xl"
    >
      <OdometerField label="Odometer out" unit={odometer.unit} initial={odometer.value} />
      <TextArea name="note" label="Note for the customer" rows={3} maxLength={1000} />
      <CheckField
        name="cautions"
        label="I looked the bike over: nothing loose, nothing left on it, throttle and brakes free"
      />
      <SubmitButton size="act" className="w-full sm:w-auto">
        The bike is ready
      </SubmitButton>
    </Form>
  );
}
