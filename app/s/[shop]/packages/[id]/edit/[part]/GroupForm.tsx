import { ChoiceField } from "@/app/_ui/ChoiceField";
import { Form } from "@/app/_ui/Form";
import { TextField } from "@/app/_ui/TextField";
import type { OptionGroup } from "@/lib/domain/packages/recipe";
import type { Writing } from "@/lib/schemas/whileWriting";
import { saveGroup } from "../../../actions";
import { FormEnd } from "./FormEnd";

export interface ItemFormProps<T> {
  slug: string;
  hidden: Readonly<Record<string, string>>;
  item: T | undefined;
  writing: Writing;
}

export function GroupForm({ slug, hidden, item, writing }: ItemFormProps<OptionGroup>) {
  return (
    <Form action={saveGroup} shop={slug} hidden={hidden} label="Group" className="max-w-[46rem]">
      <TextField
        name="name"
        label="Name"
        initial={item?.name}
        hint="As it stands above its options"
        required
      />
      <ChoiceField
        name="choose"
        label="How many may be chosen"
        initial={item?.choose ?? "any"}
        options={[
          { value: "exactly one", label: "Exactly one", detail: "A quote cannot go out without one" },
          {
            value: "at most one",
            label: "One at most",
            detail: "Ticking another takes the place of the first",
          },
          { value: "any", label: "Any number" },
        ]}
      />
      <FormEnd writing={writing} itemKey={hidden.key ?? ""} />
    </Form>
  );
}
