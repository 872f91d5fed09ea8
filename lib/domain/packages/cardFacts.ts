import { modelFact } from "../tuning/modelFacts";
import type { OnlyWhen } from "./facts";

/** What an "only when" rule may ask of a model card. `words`: the words it can be; absent for a number. */
export interface CardFact {
  readonly key: string;
  readonly name: string;
  readonly unit: string;
  readonly words?: readonly { readonly value: string; readonly name: string }[];
}

const TYPES = ["constant vacuum", "mechanical slide"].map((value) => ({ value, name: value }));

/** Facts that every card has, besides those of lib/domain/tuning/modelFacts.ts. */
export const CARD_FACTS: readonly CardFact[] = [
  { key: "carburettorType", name: "Carburettor's type", unit: "", words: TYPES },
  { key: "displacementCc", name: "Displacement", unit: "cc" },
  { key: "cylinders", name: "Number of cylinders", unit: "" },
  { key: "carburettors", name: "Number of carburettors", unit: "" },
];

/** A fact by its key; undefined where no model card has such a one. */
function cardFact(key: string): CardFact | undefined {
  const own = CARD_FACTS.find((one) => one.key === key);
  if (own) return own;
  const def = modelFact(key);
  return def && { key, name: def.name, unit: def.unit, ...(def.choices ? { words: def.choices } : {}) };
}

/** What is wrong with what a rule asks of the card, as the rest of a sentence; null where nothing is. */
export function wrongQuestion({ fact, op, value }: OnlyWhen): string | null {
  const known = cardFact(fact);
  if (!known) return `asks for “${fact}”, which no model card has.`;
  const ordered = op !== "=" && op !== "!=";
  const name = known.name.toLowerCase();
  if (!known.words) return typeof value === "number" ? null : `compares ${name} with a word.`;
  if (ordered) return `asks whether ${name} is above or below something; it is a word.`;
  const same = known.words.some((word) => word.value.toLowerCase() === String(value).toLowerCase());
  const words = known.words.map((word) => `“${word.value}”`).join(" or ");
  return same ? null : `compares ${name} with “${value}”; it can be ${words}.`;
}

const OPS = {
  "=": "is",
  "!=": "is not",
  "<": "is below",
  "<=": "is at most",
  ">": "is above",
  ">=": "is at least",
} as const;

/** The rule's condition in words: "the number of cylinders is at least 2", "displacement is above 400 cc". */
export function inWords({ fact, op, value }: OnlyWhen): string {
  const known = cardFact(fact);
  const said = known?.words?.find((word) => word.value === value)?.name.toLowerCase() ?? value;
  // A fact that is asked as a question ("Jet numbers are") is named without its verb.
  const name = known?.name.toLowerCase().replace(/ are$/, "") ?? fact;
  const verb = name === known?.name.toLowerCase() ? OPS[op] : OPS[op].replace(/^is/, "are");
  return `${name} ${verb} ${said}${known?.unit ? ` ${known.unit}` : ""}`;
}
