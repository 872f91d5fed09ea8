import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { kitsToName } from "@/lib/data/kits/read";
import { gradesToName } from "@/lib/data/packages/supplies";
import type { OpenShop } from "@/lib/gate/open";
import { PartRows } from "../../packages/[id]/edit/[part]/PartRows";
import { addWork, addWorkAtDesk } from "./agreementActions";

/** Puts work and parts on a job that stands on no quote, from its page or its card. */
export async function AddWork({ shop, jobId }: { shop: OpenShop; jobId: number }) {
  const [grades, kits] = await Promise.all([gradesToName(shop), kitsToName(shop)]);
  return (
    <Dialog trigger="Add work or parts" title="More on this job">
      <Form
        action={shop.can("job.work") ? addWork : addWorkAtDesk}
        shop={shop.slug}
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
        <PartRows rows={[]} shop={shop.slug} />
        <SubmitButton>Add it</SubmitButton>
      </Form>
    </Dialog>
  );
}
