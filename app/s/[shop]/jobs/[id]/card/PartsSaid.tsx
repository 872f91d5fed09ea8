import { ChoiceField } from "@/app/_ui/ChoiceField";
import { TextField } from "@/app/_ui/TextField";
import type { CardStep } from "@/lib/data/jobs/card";
import { quantityText } from "@/lib/schemas/quantity";

/** Asks of each part that is reserved for the step and not used yet: used now, or not, and why. */
export function PartsSaid({ parts }: { parts: CardStep["parts"] }) {
  return parts
    .filter((one) => one.state === "held")
    .map(({ id, part, reservedMilli }) => (
      <div key={id} className="border-hair border-b pt-2">
        <ChoiceField
          name={`parts.${id}`}
          label={`${part.name} ${part.code}`}
          options={[
            ...(reservedMilli > 0
              ? [{ value: "used", label: `Used: take ${quantityText(reservedMilli, part.unit)} from stock` }]
              : []),
            { value: "not", label: reservedMilli > 0 ? "Not used" : "Not used: there is none" },
          ]}
        />
        <TextField name={`why.${id}`} label="If not used, why" maxLength={300} />
      </div>
    ));
}
