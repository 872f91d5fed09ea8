type Control = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

/** A control that somebody changed before the page was live, and what stands in it. */
interface Change {
  readonly control: Control;
  readonly to: string | number | boolean;
}

const isTick = (control: Control): control is HTMLInputElement =>
  control instanceof HTMLInputElement && (control.type === "checkbox" || control.type === "radio");

/** The entry that a list shows before anybody chooses. */
function firstShown(list: HTMLSelectElement): number {
  const entries = [...list.options];
  const marked = entries.findLastIndex((entry) => entry.defaultSelected);
  return marked < 0 ? entries.findIndex((entry) => !entry.disabled) : marked;
}

/** What was changed in a control since the server sent it; undefined where nothing was. */
function changeOf(control: Control): Change | undefined {
  if (control instanceof HTMLSelectElement) {
    const to = control.selectedIndex;
    return to === firstShown(control) ? undefined : { control, to };
  }
  if (isTick(control)) {
    // Of several that exclude each other, the one that was chosen says all.
    const said =
      control.checked !== control.defaultChecked && (control.checked || control.type === "checkbox");
    return said ? { control, to: control.checked } : undefined;
  }
  if (control.type === "file") return control.value === "" ? undefined : { control, to: control.value };
  const told = control.type === "hidden" || control.value === control.defaultValue;
  return told ? undefined : { control, to: control.value };
}

/** The control itself, or the one that stands for it now. */
function present(control: Control, form: HTMLFormElement | null): Control | undefined {
  if (control.isConnected) return control;
  const found = [...(form?.elements ?? [])].find(
    (one) =>
      one.getAttribute("name") === control.name &&
      (!isTick(control) || one.getAttribute("value") === control.value),
  );
  return found instanceof HTMLInputElement ||
    found instanceof HTMLTextAreaElement ||
    found instanceof HTMLSelectElement
    ? found
    : undefined;
}

const tell = (control: Control, event: string) => control.dispatchEvent(new Event(event, { bubbles: true }));

/** Puts text in as typing does: what the page's library set last is what the server sent, so that it sees a change. */
function type(control: HTMLInputElement | HTMLTextAreaElement, text: string): void {
  const caret = document.activeElement === control ? [control.selectionStart, control.selectionEnd] : [];
  const kind = control instanceof HTMLInputElement ? HTMLInputElement : HTMLTextAreaElement;
  control.value = control.defaultValue;
  Object.getOwnPropertyDescriptor(kind.prototype, "value")?.set?.call(control, text);
  const [from, to] = caret;
  if (typeof from === "number" && typeof to === "number") control.setSelectionRange(from, to);
  tell(control, "input");
}

function tellChange({ control, to }: Change): void {
  if (control instanceof HTMLSelectElement) {
    control.selectedIndex = Number(to);
    tell(control, "change");
  } else if (isTick(control)) {
    control.checked = !to;
    control.click();
  } else if (control.type === "file") tell(control, "change");
  else type(control, String(to));
}

/** What was typed, ticked and chosen in the document before it was live; what was taken off stands first. */
export function earlyChanges(): readonly Change[] {
  const controls = document.querySelectorAll<Control>("input, textarea, select");
  const changes = [...controls].flatMap((control) => changeOf(control) ?? []);
  return changes.sort((one, other) => Number(other.to === false) - Number(one.to === false));
}

/** Tells a live page of each change as though it were made now: one at a time, so that each finds what the last one led to. */
export async function tellChanges(changes: readonly Change[]): Promise<void> {
  const forms = changes.map(({ control }) => control.form);
  for (const [at, { control, to }] of changes.entries()) {
    await new Promise((drawn) => setTimeout(drawn));
    const now = present(control, forms[at] ?? null);
    // Whoever types on is not set back.
    if (now) tellChange(changeOf(now) ?? { control: now, to });
  }
}
