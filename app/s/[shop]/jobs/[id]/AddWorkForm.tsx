import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { PartRows } from "../../packages/[id]/edit/[part]/PartRows";
import { addWork, addWorkAtDesk } from "./agreementActions";

export interface AddWorkFormProps {
  slug: string;
  jobId: number;
  /** By the right to write jobs, where somebody does not work on them. */
  atDesk: boolean;
  grades: readonly { readonly code: string; readonly name: string }[];
  kits: readonly { readonly id: number; readonly code: string; readonly name: string }[];
}

/** What is put on a job: work with its minutes, a kit, parts. */
export function AddWorkForm({ slug, jobId, atDesk, grades, kits }: AddWorkFormProps) {
  return (
    <Form
      action={atDesk ? addWorkAtDesk : addWork}
      shop={slug}
      hidden={{ jobId: String(jobId) }}
      label="More on this job"
    >
      <TextField name="title" label="What" required maxLength={120} />
      <div className="grid grid-cols-2 gap-x-4">
        <TextField name="minutes" label="Minutes" inputMode="numeric" mono />
        <SelectField
          name="grade"
          label="Grade"
          options={grades.map(({ code, name }) => ({ value: code, label: name }))}
          initial={grades[0]?.code}
        />
      </div>
      {kits.length > 0 && (
        <div className="grid grid-cols-[minmax(0,1fr)_7rem] gap-x-4">
          <SelectField
            name="kitId"
            label="Kit"
            options={[
              { value: "", label: "none" },
              ...kits.map(({ id, code, name }) => ({ value: String(id), label: `${code} ${name}` })),
            ]}
          />
          <TextField name="kitCount" label="How many" initial="1" inputMode="numeric" mono />
        </div>
      )}
      <PartRows rows={[]} shop={slug} />
      <SubmitButton>Add it</SubmitButton>
    </Form>
  );
}
