import { z } from "zod";
import type { Rule } from "../domain/packages/recipe";
import { key, keys, why } from "./recipeFields";
import { itemRef, parted } from "./recipeItem";
import { readTyped } from "./typedNumber";

const optionalKey = z.string().trim().max(60).default("");

export const RuleFormSchema = z
  .object({
    ...itemRef,
    kind: z.enum(["needs", "excludes", "warns", "only when"]),
    option: key,
    anyOf: keys,
    other: optionalKey,
    with: optionalKey,
    without: optionalKey,
    fact: optionalKey,
    op: z.enum(["=", "!=", "<", "<=", ">", ">="]).default("="),
    value: z.string().trim().max(60).default(""),
    why,
  })
  .transform((form, context) => {
    const { item, ...ref } = parted(form);
    const { kind, option } = item;
    const rule = ruleOf(item, (path, message) => context.addIssue({ code: "custom", path: [path], message }));
    return rule ? { ...ref, item: { kind, option, ...rule } as Rule } : z.NEVER;
  });

interface RuleForm {
  readonly kind: Rule["kind"];
  readonly anyOf: readonly string[];
  readonly other: string;
  readonly with: string;
  readonly without: string;
  readonly fact: string;
  readonly op: string;
  readonly value: string;
  readonly why: string;
}

/** What a rule of its kind says besides its option; null where `tell` was told what is missing. */
function ruleOf(form: RuleForm, tell: (field: string, message: string) => void): object | null {
  const { kind, why: because } = form;
  const missing = (field: string, message: string) => {
    tell(field, message);
    return null;
  };
  if (kind === "needs")
    return form.anyOf.length > 0
      ? { anyOf: form.anyOf, why: because }
      : missing("anyOf", "Tick what it needs one of.");
  if (kind === "excludes")
    return form.other
      ? { other: form.other, why: because }
      : missing("other", "Choose what it does not go with.");
  if (kind === "warns") {
    if (!form.with && !form.without)
      return missing("with", "Choose what it is warned about with, or without.");
    return {
      ...(form.without ? { without: form.without } : {}),
      ...(form.with ? { with: form.with } : {}),
      why: because,
    };
  }
  if (!form.fact) return missing("fact", "Choose what the model card must say.");
  if (!form.value) return missing("value", "Enter what it is compared with.");
  const typed = readTyped(form.value);
  return {
    fact: form.fact,
    op: form.op,
    value: typeof typed === "number" ? typed : form.value,
    why: because,
  };
}
