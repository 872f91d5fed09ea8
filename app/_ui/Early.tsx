"use client";
import { useEffect } from "react";

/** What is asked of an input, a text area or a list. */
export type EarlyField = HTMLInputElement & Pick<HTMLSelectElement, "options">;

/** What stood in a field that somebody changed before the page was live. */
export interface EarlyChange {
  readonly field: EarlyField;
  readonly value: string;
  readonly checked: boolean;
  readonly form: HTMLFormElement | null;
}

const sent = (field: EarlyField): string | undefined =>
  field.defaultValue ??
  (field.querySelector<HTMLOptionElement>("option[selected]") ?? field.options[0])?.value;

/**
 * What is typed, ticked or chosen before a page is live counts: once the page is, it is told of it. Stands after all of the page. What
 * does so is fetched where there is something to tell, and each page sets its fields back meanwhile: what stood in them is taken down.
 */
export function Early() {
  useEffect(() => {
    const changes = [...document.querySelectorAll<EarlyField>("input,textarea,select")]
      .filter((field) => field.value !== sent(field) || field.checked !== field.defaultChecked)
      .map((field): EarlyChange => ({ field, value: field.value, checked: field.checked, form: field.form }));
    if (changes.length > 0) void import("./early").then(({ tellChanges }) => tellChanges(changes));
  }, []);
  return null;
}
