import { Form } from "@/app/_ui/Form";
import { KeepMine } from "@/app/_ui/KeepMine";
import { NumberField } from "@/app/_ui/NumberField";
import { Section } from "@/app/_ui/Section";
import { SelectField } from "@/app/_ui/SelectField";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { Suggestions } from "@/app/_ui/Suggestions";
import { TextArea } from "@/app/_ui/TextArea";
import { TextField } from "@/app/_ui/TextField";
import { FACT_GROUPS, HOW_TYPED, MODEL_FACTS, type ModelFactDef } from "@/lib/domain/tuning/modelFacts";
import { CARBURETTOR_TYPES } from "@/lib/schemas/carburettorTypes";
import { saveModelCard } from "./actions";
import { FactNote } from "./FactNote";

interface FactValue {
  readonly key: string;
  readonly value: number | null;
  readonly text: string | null;
  readonly how: string;
  readonly note: string;
}

export interface CardValues {
  readonly id: number;
  readonly version: number;
  readonly make: string;
  readonly model: string;
  readonly yearFrom: number | null;
  readonly yearTo: number | null;
  readonly displacementCc: number;
  readonly cylinders: number;
  readonly carburettors: number;
  readonly carburettorType: string;
  readonly serviceMonths: number | null;
  readonly mainFamily: string;
  readonly pilotFamily: string;
  readonly notes: string;
  readonly facts: readonly FactValue[];
}

export interface ModelCardFormProps {
  readonly shop: string;
  readonly card?: CardValues;
  /** Drawers of jets, to choose from. */
  readonly families: readonly string[];
  /** In the shop's own unit of distance. */
  readonly service: { readonly unit: string; readonly every: number | undefined };
}

/** A model card with every fact it may hold. A blank fact is not known. */
export function ModelCardForm({ shop, card, families, service }: ModelCardFormProps) {
  const grid = "grid gap-x-5 sm:grid-cols-2 lg:grid-cols-3";
  return (
    <Form
      action={saveModelCard}
      shop={shop}
      hidden={card ? { id: String(card.id), version: String(card.version) } : undefined}
      label="Model card"
      className="max-w-[1000px]"
    >
      <Section title="Model">
        <div className={grid}>
          <TextField name="make" label="Make" initial={card?.make} required maxLength={60} />
          <TextField name="model" label="Model" initial={card?.model} required maxLength={60} />
          <SelectField
            name="carburettorType"
            label="Carburettor type"
            initial={card?.carburettorType}
            options={CARBURETTOR_TYPES.map((value) => ({ value, label: value }))}
          />
          <NumberField
            name="displacementCc"
            label="Displacement"
            unit="cc"
            step={10}
            min={20}
            max={3000}
            initial={card?.displacementCc}
            required
          />
          <NumberField
            name="cylinders"
            label="Cylinders"
            min={1}
            max={6}
            initial={card?.cylinders ?? 1}
            required
          />
          <NumberField
            name="carburettors"
            label="Carburettors"
            min={1}
            max={4}
            initial={card?.carburettors ?? 1}
            required
          />
          <NumberField
            name="yearFrom"
            label="First year"
            min={1900}
            max={2100}
            initial={card?.yearFrom ?? undefined}
          />
          <NumberField
            name="yearTo"
            label="Last year"
            min={1900}
            max={2100}
            initial={card?.yearTo ?? undefined}
          />
        </div>
      </Section>
      <Section title="Intervals">
        <div className={grid}>
          <NumberField
            name="serviceKm"
            label="Service every"
            unit={service.unit}
            step={500}
            initial={service.every}
          />
          <NumberField
            name="serviceMonths"
            label="And at least every"
            unit="months"
            step={6}
            initial={card?.serviceMonths ?? undefined}
          />
        </div>
      </Section>
      <Section title="Jets it takes">
        <Suggestions id="families" values={families} />
        <div className={grid}>
          <TextField
            name="mainFamily"
            label="Main jets from the drawer"
            initial={card?.mainFamily}
            list="families"
            hint="The family of its main jets, as stock calls it"
            maxLength={60}
          />
          <TextField
            name="pilotFamily"
            label="Pilot jets from the drawer"
            initial={card?.pilotFamily}
            list="families"
            maxLength={60}
          />
        </div>
      </Section>
      {FACT_GROUPS.map((group) => (
        <Section key={group} title={group}>
          <div className="grid gap-x-10 lg:grid-cols-2">
            {MODEL_FACTS.filter((fact) => fact.group === group).map((fact) => (
              <Fact key={fact.key} fact={fact} known={card?.facts.find((each) => each.key === fact.key)} />
            ))}
          </div>
        </Section>
      ))}
      <TextArea name="notes" label="Notes" initial={card?.notes} />
      <KeepMine />
      <SubmitButton size="act">Save the card</SubmitButton>
    </Form>
  );
}

const HOWS = [{ value: "", label: "choose" }, ...HOW_TYPED.map((value) => ({ value, label: value }))];

function Fact({ fact, known }: { fact: ModelFactDef; known: FactValue | undefined }) {
  const name = `facts.${fact.key}`;
  const hidden = <span className="sr-only">{fact.name}, </span>;
  return (
    <div className="mb-2 grid grid-cols-[minmax(0,1fr)_7.5rem] gap-x-3 border-hair border-b">
      {fact.choices ? (
        <SelectField
          name={`${name}.value`}
          label={fact.name}
          initial={known?.text ?? ""}
          options={[
            { value: "", label: "not known" },
            ...fact.choices.map((choice) => ({ value: choice.value, label: choice.name })),
          ]}
        />
      ) : (
        <NumberField
          name={`${name}.value`}
          label={fact.name}
          unit={fact.unit || undefined}
          step={fact.step}
          min={fact.low}
          max={fact.high}
          initial={known?.value ?? undefined}
        />
      )}
      <SelectField
        name={`${name}.how`}
        label={<>{hidden}Known</>}
        initial={known?.how ?? ""}
        options={HOWS}
      />
      <FactNote name={`${name}.note`} fact={fact.name} kept={known?.note} />
    </div>
  );
}
