import { useEffect } from "react";

/** What is asked of an input, a text area or a list. */
export type EarlyField = HTMLInputElement & Pick<HTMLSelectElement, "options">;

/** A field that somebody changed before the page was live, its value and tick then, and the form that it stands in. */
export type EarlyChange = readonly [EarlyField, string, boolean, HTMLFormElement | null];

/** What the server sent a field with. */
export const sent = (field: EarlyField): string | undefined =>
  field.defaultValue ??
  (field.querySelector<HTMLOptionElement>("option[selected]") ?? field.options[0])?.value;

/**
 * What is typed, ticked or chosen before a page is live counts: once the page is, it is told of it. Called by what stands around all of
 * the page. What tells is fetched where there is something to tell; the page sets its fields back meanwhile, so what stood in them is
 * taken down at once.
 */
export function useEarlyChanges(): void {
  useEffect(() => {
    const changes = [...document.querySelectorAll<EarlyField>("input,textarea,select")]
      .filter((field) => field.value !== sent(field) || field.checked !== field.defaultChecked)
      .map((field): EarlyChange => [field, field.value, field.checked, field.form]);
    if (changes[0]) void import("./tellEarly").then((module) => module.tellEarly(changes));
  }, []);
}
