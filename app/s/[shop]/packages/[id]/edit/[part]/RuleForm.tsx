import { Form } from "@/app/_ui/Form";
import { SelectField } from "@/app/_ui/SelectField";
import { TextField } from "@/app/_ui/TextField";
import { CARD_FACTS } from "@/lib/domain/packages/cardFacts";
import type { Recipe, Rule } from "@/lib/domain/packages/recipe";
import { FACT_GROUPS, MODEL_FACTS } from "@/lib/domain/tuning/modelFacts";
import { saveRule } from "../../../actions";
import { RULE_WORDS } from "../partWords";
import { FormEnd } from "./FormEnd";
import type { ItemFormProps } from "./GroupForm";
import { Keys } from "./Keys";

const OPS = [
  { value: "=", label: "is" },
  { value: "!=", label: "is not" },
  { value: "<", label: "is below" },
  { value: "<=", label: "is at most" },
  { value: ">", label: "is above" },
  { value: ">=", label: "is at least" },
];
const NONE = { value: "", label: "–" };

interface Props extends ItemFormProps<Rule> {
  recipe: Recipe;
  kind: Rule["kind"];
}

/** A rule as a sentence: an option, what it needs or does not go with, and why. */
export function RuleForm({ slug, hidden, item, writing, recipe, ...rest }: Props) {
  const kind = item?.kind ?? rest.kind;
  const options = recipe.options.map((o) => ({ value: o.key, label: o.name }));
  const choice = (of: string | undefined) =>
    of && !options.some((o) => o.value === of) ? [{ value: of, label: `“${of}”, which is gone` }] : [];
  const pick = (name: string, label: string, initial: string | undefined, blank = true) => (
    <SelectField
      name={name}
      label={label}
      initial={initial ?? ""}
      options={[...(blank ? [NONE] : []), ...options, ...choice(initial)]}
    />
  );
  return (
    <Form action={saveRule} shop={slug} hidden={{ ...hidden, kind }} label="Rule" className="max-w-[46rem]">
      {pick("option", "Option", item?.option ?? options[0]?.value, options.length === 0)}
      <p className="mb-3 font-semibold">{`… ${RULE_WORDS[kind]}`}</p>
      {kind === "needs" && (
        <Keys
          name="anyOf"
          legend="One of these"
          of={recipe.options}
          ticked={item?.kind === "needs" ? item.anyOf : []}
          none="No option yet."
        />
      )}
      {kind === "excludes" &&
        pick("other", "This option", item?.kind === "excludes" ? item.other : undefined)}
      {kind === "warns" && (
        <>
          {pick("with", "When this one is chosen too", item?.kind === "warns" ? item.with : undefined)}
          {pick("without", "When this one is not chosen", item?.kind === "warns" ? item.without : undefined)}
        </>
      )}
      {kind === "only when" && <OnlyWhen item={item?.kind === "only when" ? item : undefined} />}
      <TextField
        name="why"
        label="Why"
        hint="Shown beside the option"
        initial={item?.why}
        required
        maxLength={300}
      />
      <FormEnd writing={writing} itemKey={hidden.key ?? ""} />
    </Form>
  );
}

function OnlyWhen({ item }: { item: Extract<Rule, { kind: "only when" }> | undefined }) {
  const facts = FACT_GROUPS.flatMap((group) =>
    MODEL_FACTS.filter((f) => f.group === group).map((f) => ({
      value: f.key,
      label: `${f.name}${f.unit ? `, ${f.unit}` : ""}`,
    })),
  );
  const own = CARD_FACTS.map((f) => ({ value: f.key, label: f.unit ? `${f.name}, ${f.unit}` : f.name }));
  const known = [...own, ...facts];
  const words = [...CARD_FACTS.flatMap((f) => f.words ?? []), ...MODEL_FACTS.flatMap((f) => f.choices ?? [])];
  const strange =
    item && !known.some((f) => f.value === item.fact) ? [{ value: item.fact, label: item.fact }] : [];
  return (
    <div className="grid gap-x-4 sm:grid-cols-[2fr_1fr_1fr]">
      <SelectField
        name="fact"
        label="The model card's"
        initial={item?.fact ?? ""}
        options={[NONE, ...known, ...strange]}
      />
      <SelectField name="op" label="how" initial={item?.op ?? "="} options={OPS} />
      <TextField
        name="value"
        label="what"
        hint="A number, or the card's word"
        initial={item ? String(item.value) : ""}
        list="card-words"
        mono
      />
      <datalist id="card-words">
        {[...new Map(words.map((word) => [word.value, word.name]))].map(([value, name]) => (
          <option key={value} value={value}>
            {name}
          </option>
        ))}
      </datalist>
    </div>
  );
}
