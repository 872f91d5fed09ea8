"use client";
import { createContext, useContext } from "react";
import type { FormState } from "./formState";

export interface FormContextValue {
  readonly seq: number;
  /** What was typed, after a refusal. */
  readonly values: FormState["values"] | undefined;
  /** What was typed, by field, since the form was sent that the answer is to. */
  readonly meanwhile: FormState["values"] | undefined;
  readonly fields: FormState["fields"] | undefined;
  readonly shown: FormState["shown"] | undefined;
}

const OUTSIDE: FormContextValue = {
  seq: 0,
  values: undefined,
  meanwhile: undefined,
  fields: undefined,
  shown: undefined,
};
export const FormContext = createContext<FormContextValue>(OUTSIDE);

function errorOf(fields: FormState["fields"], name: string): string | undefined {
  return fields?.[name] ?? fields?.[name.replace(/\[\]$/, "")];
}

/** What is wrong with one box of several that share a name: `name.value`, else what is wrong with all of them. */
function errorOfBox(fields: FormState["fields"], name: string, value: string): string | undefined {
  return fields?.[`${name.replace(/\[\]$/, "")}.${value}`] ?? errorOf(fields, name);
}

/** What a field of this name shows: what was typed while an answer came or before a refusal, else `initial`. Key the control by `seq`. */
export function useFormField(name: string, initial = "") {
  const { seq, values, meanwhile, fields } = useContext(FormContext);
  const typed = meanwhile?.[name] ?? values?.[name];
  return {
    value: (typeof typed === "string" ? typed : typed?.[0]) ?? initial,
    error: errorOf(fields, name),
    seq,
  };
}

/** The text a field of this name shows. */
export function useFormValue(name: string, initial = ""): string {
  return useFormField(name, initial).value;
}

/** Whether a box of this name and value is ticked. An unticked box is absent from what was sent. */
export function useFormTick(name: string, value: string, initial = false) {
  const { seq, values, meanwhile, fields } = useContext(FormContext);
  const typed = meanwhile?.[name] ?? values?.[name];
  const sent = typeof typed === "string" ? typed.split("\n") : (typed ?? []);
  const ticked = values === undefined && typed === undefined ? initial : sent.includes(value);
  return { ticked, error: errorOfBox(fields, name, value), seq };
}

/** A value the action handed back to be shown once. */
export function useShown(name: string): string | undefined {
  return useContext(FormContext).shown?.[name];
}
