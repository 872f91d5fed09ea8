import { Form } from "@/app/_ui/Form";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { giveItsJob } from "../actions";

export interface GiveItsJobProps {
  shop: string;
  id: number;
  version: number;
  jobs: readonly { id: number; number: string; title: string; customer: { name: string } }[];
}

/** A booking that was made first becomes a job's booking. */
export function GiveItsJob({ shop, id, version, jobs }: GiveItsJobProps) {
  return (
    <Section title="Its job">
      {jobs.length === 0 ? (
        <p className="text-soft">
          No job of this customer goes on. Once there is one, the booking is given to it here.
        </p>
      ) : (
        <Form
          action={giveItsJob}
          shop={shop}
          hidden={{ id: String(id), version: String(version) }}
          label="Give it its job"
        >
          <SelectField
            name="jobId"
            label="Which job"
            options={jobs.map((job) => ({
              value: String(job.id),
              label: `${job.number} ${job.title}, ${job.customer.name}`,
            }))}
          />
          <SubmitButton tone="second">Give it this job</SubmitButton>
        </Form>
      )}
    </Section>
  );
}
