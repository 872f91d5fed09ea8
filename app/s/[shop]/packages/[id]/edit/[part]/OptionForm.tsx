import { CheckField } from "@/app/_ui/CheckField";
import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import type { Option, Recipe } from "@/lib/domain/packages/recipe";
import { COMPLAINTS } from "@/lib/domain/tuning/complaints";
import { saveOption } from "../../../actions";
import { currencyDigits, plainAmount } from "../../../plainAmount";
import { ChangeRows } from "./ChangeRows";
import { FormEnd } from "./FormEnd";
import type { ItemFormProps } from "./GroupForm";
import { Keys } from "./Keys";
import { LeftPartFields } from "./LeftPartFields";
import { NeedleFields } from "./NeedleFields";
import { PartRows } from "./PartRows";

interface Props extends ItemFormProps<Option> {
  recipe: Recipe;
  locale: string;
  currency: string;
}

export function OptionForm({ slug, hidden, item, writing, recipe, locale, currency }: Props) {
  const fixed = item?.fixedPriceMinor;
  return (
    <Form action={saveOption} shop={slug} hidden={hidden} label="Option">
      <div className="max-w-[46rem]">
        <TextField
          name="name"
          label="Name"
          initial={item?.name}
          hint="As it is ticked on the quote"
          required
        />
        <SelectField
          name="group"
          label="Group"
          initial={item?.group ?? recipe.groups[0]?.key ?? ""}
          options={[
            ...(recipe.groups.length === 0 ? [{ value: "", label: "Make a group first" }] : []),
            ...recipe.groups.map((g) => ({ value: g.key, label: g.name })),
          ]}
        />
        <TextArea
          name="plain"
          label="In plain words"
          hint="For the customer: what is done, and what they will notice"
          initial={item?.plain}
          rows={3}
        />
        <CheckField name="preset" label="Ticked when a new quote starts" initial={item?.preset ?? false} />
        <CheckField
          name="roadUse"
          label="Road-use rules may apply"
          detail="Emissions, noise or approval: the customer acknowledges it before accepting"
          initial={item?.roadUse ?? false}
        />
        <TextField
          name="fixedPrice"
          label={`Fixed price, ${currency}`}
          hint="Leave it empty to charge work and parts"
          initial={fixed === undefined ? "" : plainAmount(fixed, currencyDigits(currency), locale)}
          inputMode="decimal"
          mono
          className="max-w-72"
        />
        <Keys
          name="operations"
          legend="Operations it takes"
          of={recipe.operations}
          ticked={item?.operations ?? []}
          none="No operation yet: add them to the draft, then tick them here."
        />
      </div>
      <PartRows rows={item?.parts ?? []} takers={recipe.operations} shop={slug} drawers />
      <ChangeRows rows={item?.changes ?? []} />
      <NeedleFields work={item?.needle} />
      <LeftPartFields leaves={item?.leaves} />
      <div className="max-w-[46rem]">
        <Keys
          name="answers"
          legend="Complaints that it answers"
          hint="Beside those that its settings decide: a quote says so where the intake names one"
          of={COMPLAINTS}
          ticked={item?.answers ?? []}
          none=""
        />
      </div>
      <div className="max-w-[46rem]">
        <TextArea
          name="cautions"
          label="Said to the customer before they accept"
          hint="One a line"
          initial={item?.cautions.join("\n")}
          rows={3}
        />
      </div>
      <FormEnd writing={writing} itemKey={hidden.key ?? ""} />
    </Form>
  );
}
