import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { TextField } from "@/app/_ui/TextField";
import { CONVENTION_WORDS } from "@/lib/schemas/partWords";
import { describeDrawer } from "../actions";

interface Props {
  slug: string;
  name: string;
  kept: { readonly thread: string; readonly convention: string; readonly version: number } | undefined;
}

/** A drawer's thread and how its jets are numbered, so that others of the same thread can be offered with what they flow as. */
export function DescribeDrawer({ slug, name, kept }: Props) {
  return (
    <Dialog
      trigger={kept?.thread ? `Thread ${kept.thread}` : "Say its thread"}
      triggerTone="quiet"
      title={name}
    >
      <Form
        action={describeDrawer}
        shop={slug}
        hidden={{ name, version: String(kept?.version ?? 0) }}
        label={`Thread of ${name}`}
      >
        <TextField
          name="thread"
          label="Thread"
          hint="As measured: M5 x 0.75. Jets of other drawers with this thread are shown where one is missing."
          initial={kept?.thread}
          mono
          maxLength={40}
        />
        <SelectField
          name="convention"
          label="Its numbers are"
          initial={kept?.convention ?? ""}
          hint="Chosen, it holds for every jet in the drawer."
          options={[
            { value: "", label: "as each jet says" },
            { value: "bore", label: CONVENTION_WORDS.bore },
            { value: "flow", label: CONVENTION_WORDS.flow },
          ]}
        />
        <SubmitButton size="act">Save</SubmitButton>
      </Form>
    </Dialog>
  );
}
