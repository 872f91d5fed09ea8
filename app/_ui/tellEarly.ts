import type { EarlyChange, EarlyField } from "./useEarlyChanges";

const isTick = ({ type }: EarlyField) => type === "checkbox" || type === "radio";

/** The field itself, or the one that stands for it now. */
function present([field, , , form]: EarlyChange): EarlyField | undefined {
  if (field.isConnected) return field;
  const same = ([...(form?.elements ?? [])] as EarlyField[]).filter(
    ({ name, type, value }) =>
      name === field.name && type === field.type && (!isTick(field) || value === field.value),
  );
  return same.length === 1 ? same[0] : undefined;
}

const say = (field: EarlyField, event: string) => field.dispatchEvent(new Event(event, { bubbles: true }));

/** Puts text in as typing does: what the page's library set last is what the server sent, so that it sees a change. */
function type(field: EarlyField, text: string): void {
  const caret = document.activeElement === field ? [field.selectionStart, field.selectionEnd] : [];
  const kind = field instanceof HTMLTextAreaElement ? HTMLTextAreaElement : HTMLInputElement;
  field.value = field.defaultValue;
  Object.getOwnPropertyDescriptor(kind.prototype, "value")?.set?.call(field, text);
  const [from, to] = caret;
  if (typeof from === "number" && typeof to === "number") field.setSelectionRange(from, to);
  say(field, "input");
}

function tell(field: EarlyField, [, value, checked]: EarlyChange): void {
  if (isTick(field)) {
    // Of several that exclude each other, the one that was chosen says all.
    if (field.type === "radio" && !checked) return;
    field.checked = !checked;
    field.click();
  } else if (field.type === "file") say(field, "change");
  else if (field.type.startsWith("select")) {
    field.value = value;
    say(field, "change");
  } else if (field.type !== "hidden") {
    // Whoever types on is not set back.
    type(field, field.value === field.defaultValue ? value : field.value);
  }
}

/**
 * Tells a live page of each change as though it were made now: what was taken off first, and one at a time, so that each finds what the
 * last one led to.
 */
export async function tellEarly(changes: readonly EarlyChange[]): Promise<void> {
  const taken = ([field, , checked]: EarlyChange) => Number(isTick(field) && !checked);
  for (const change of [...changes].sort((one, other) => taken(other) - taken(one))) {
    await new Promise((drawn) => setTimeout(drawn));
    const field = present(change);
    if (field) tell(field, change);
  }
}
