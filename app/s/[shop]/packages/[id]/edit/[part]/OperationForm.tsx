import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { SelectField } from "@/app/_ui/SelectField";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import type { Operation, Recipe } from "@/lib/domain/packages/recipe";
import { WEAR_ITEMS } from "@/lib/domain/tuning/wear";
import { saveOperation } from "../../../actions";
import { RecheckFields } from "../../../RecheckFields";
import { FormEnd } from "./FormEnd";
import type { ItemFormProps } from "./GroupForm";
import { HoldRows } from "./HoldRows";
import { Keys } from "./Keys";
import { type LibraryLines, LinePick } from "./LinePick";
import { MADE } from "./made";
import { PartRows } from "./PartRows";

interface Props extends ItemFormProps<Operation> {
  recipe: Recipe;
  grades: readonly { readonly code: string; readonly name: string }[];
  library: LibraryLines;
  /** What it usually takes here, in words. */
  usual?: string | undefined;
}

export function OperationForm({ slug, hidden, item, writing, recipe, grades, library, usual }: Props) {
  const strange = item && !grades.some((g) => g.code === item.grade);
  return (
    <Form action={saveOperation} shop={slug} hidden={hidden} label="Operation">
      <div className="max-w-[46rem]">
        <TextField name="name" label="Name" initial={item?.name} required />
        <div className="grid gap-x-6 sm:grid-cols-2">
          <NumberField
            name="minutes"
            label="Minutes"
            hint={usual}
            unit="min"
            min={1}
            max={6000}
            initial={item?.minutes}
            required
          />
          <SelectField
            name="grade"
            label="Labour grade"
            initial={item?.grade}
            options={[
              ...grades.map((g) => ({ value: g.code, label: g.name })),
              ...(strange ? [{ value: item.grade, label: `“${item.grade}”, which the shop lacks` }] : []),
            ]}
          />
        </div>
        <TextArea name="instruction" label="Instruction on the card" initial={item?.instruction} rows={3} />
        <Keys
          name="accesses"
          legend="What must be open for it"
          of={recipe.accesses}
          ticked={item?.accesses ?? []}
          none="No access yet: add them to the draft, then tick them here."
        />
        <CheckField
          name="makesSwarf"
          label="Makes swarf or dust"
          detail="Planned before the fuel system is open, or after it is closed"
          initial={item?.makesSwarf ?? false}
        />
        <Keys
          name="after"
          legend="Comes after"
          hint="Where both are in the work"
          of={recipe.operations.filter((o) => o.key !== item?.key)}
          ticked={item?.after ?? []}
          none="No other operation yet."
        />
        <Keys
          name="inspects"
          legend="Inspects the wear of"
          hint="Done, its kilometres count from there"
          of={WEAR_ITEMS}
          ticked={item?.inspects ?? []}
          none=""
        />
      </div>
      <div className="max-w-[46rem]">
        <Keys
          name="makes"
          legend="Settings and parts that it makes"
          hint="The step shows what to make for each of them"
          of={MADE}
          ticked={item?.makes ?? []}
          none=""
        />
      </div>
      <HoldRows rows={item?.holdPoints ?? []} />
      <PartRows rows={item?.parts ?? []} shop={slug} drawers />
      <div className="grid max-w-[46rem] gap-x-6 sm:grid-cols-2">
        <TextArea
          name="cautions"
          label="Cautions"
          hint="One a line: shown just before the step"
          initial={item?.cautions.join("\n")}
        />
        <TextArea name="tools" label="Tools" hint="One a line" initial={item?.tools.join("\n")} />
      </div>
      <div className="max-w-[46rem]">
        <LinePick into="cautions" label="Caution from the library" lines={library.cautions} />
        <RecheckFields recheck={item?.recheck} />
      </div>
      <FormEnd writing={writing} itemKey={hidden.key ?? ""} />
    </Form>
  );
}
