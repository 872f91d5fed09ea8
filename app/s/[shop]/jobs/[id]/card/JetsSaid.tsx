import { ChoiceField } from "@/app/_ui/ChoiceField";
import { TextField } from "@/app/_ui/TextField";
import type { CardStep } from "@/lib/data/jobs/card";
import { fetchText } from "@/lib/schemas/bins";
import { quantityText } from "@/lib/schemas/quantity";

/** Asks which jet was fitted where its size was left open: one of the drawer's, or another size and why. */
export function JetsSaid({ jets }: { jets: CardStep["jets"] }) {
  return jets.map((jet, at) => {
    if (jet.settled) return null;
    const options = jet.free.map((part) => {
      const bin = fetchText(part);
      const free = quantityText(part.onHandMilli - part.reservedMilli, part.unit);
      return {
        value: String(part.id),
        label: `${part.name} ${part.code}`,
        detail: `${free} free${bin && `, ${bin}`}`,
      };
    });
    return (
      // An entry keeps its place on the step for good.
      <div key={jetKey(jet, at)} className="border-hair border-b pt-2">
        <ChoiceField
          name={`jets.${at}`}
          label={`${jet.name}: which one is fitted?`}
          options={[...options, { value: "other", label: "Another size, not from the shop’s stock" }]}
        />
        <div className="grid gap-x-4 sm:grid-cols-2">
          <TextField name={`jetSizes.${at}`} label="If another, its size" inputMode="decimal" mono />
          <TextField name={`jetWhys.${at}`} label="If another, why" maxLength={300} />
        </div>
      </div>
    );
  });
}

const jetKey = ({ setting, carburettor }: CardStep["jets"][number], at: number) =>
  `${at} ${setting} ${carburettor}`;
