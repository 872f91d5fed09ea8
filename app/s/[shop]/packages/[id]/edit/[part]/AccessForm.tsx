import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { NumberField } from "@/app/_ui/NumberField";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { accessTitles } from "@/lib/domain/packages/accessTitles";
import type { Access, Recipe } from "@/lib/domain/packages/recipe";
import { saveAccess } from "../../../actions";
import { RecheckFields } from "../../../RecheckFields";
import { FormEnd } from "./FormEnd";
import type { ItemFormProps } from "./GroupForm";
import { Keys } from "./Keys";
import { type LibraryLines, LinePick } from "./LinePick";

export function AccessForm({
  slug,
  hidden,
  item,
  writing,
  recipe,
  library,
  usual,
}: ItemFormProps<Access> & {
  recipe: Recipe;
  library: LibraryLines;
  /** What opening and closing it usually takes here, in words. */
  usual: { readonly open?: string | undefined; readonly close?: string | undefined };
}) {
  const others = recipe.accesses.filter((a) => a.key !== item?.key);
  const titles = item && accessTitles({ name: item.name });
  const minutes = { unit: "min", min: 0, max: 6000, required: true } as const;
  return (
    <Form action={saveAccess} shop={slug} hidden={hidden} label="Access" className="max-w-[46rem]">
      <TextField
        name="name"
        label="Name"
        hint="What is off, open or turned: tank off, carburettor turned left"
        initial={item?.name}
        required
      />
      <div className="grid gap-x-6 sm:grid-cols-2">
        <TextField
          name="openAs"
          label="On the card, opening it reads"
          hint={`Left empty: ${titles?.open ?? "made of the name, such as “Take off: tank”"}`}
          initial={item?.openAs}
          maxLength={120}
        />
        <TextField
          name="closeAs"
          label="Closing it reads"
          hint={`Left empty: ${titles?.close ?? "made of the name, such as “Put back: tank”"}`}
          initial={item?.closeAs}
          maxLength={120}
        />
      </div>
      <div className="grid gap-x-6 sm:grid-cols-2">
        <NumberField
          name="openMinutes"
          label="Minutes to open"
          hint={usual.open}
          initial={item?.openMinutes}
          {...minutes}
        />
        <NumberField
          name="closeMinutes"
          label="Minutes to close"
          hint={usual.close}
          initial={item?.closeMinutes}
          {...minutes}
        />
      </div>
      <Keys
        name="needs"
        legend="Needs open first"
        of={others}
        ticked={item?.needs ?? []}
        none="No other access yet."
      />
      <CheckField
        name="fuelOpen"
        label="The fuel system is open with it"
        detail="Nothing that makes swarf or dust is done meanwhile"
        initial={item?.fuelOpen ?? false}
      />
      <Keys
        name="excludes"
        legend="Never open together with"
        hint="Turned left and turned right"
        of={others}
        ticked={item?.excludes ?? []}
        none="No other access yet."
      />
      <TextArea
        name="closingChecks"
        label="Checked on closing"
        hint="One a line: hose on, hose not kinked, O-ring seated"
        initial={item?.closingChecks.join("\n")}
      />
      <LinePick into="closingChecks" label="Check from the library" lines={library.checks} />
      <div className="grid gap-x-6 sm:grid-cols-2">
        <TextArea name="cautions" label="Cautions" hint="One a line" initial={item?.cautions.join("\n")} />
        <TextArea name="tools" label="Tools" hint="One a line" initial={item?.tools.join("\n")} />
      </div>
      <LinePick into="cautions" label="Caution from the library" lines={library.cautions} />
      <RecheckFields recheck={item?.recheck} />
      <FormEnd writing={writing} itemKey={hidden.key ?? ""} />
    </Form>
  );
}
