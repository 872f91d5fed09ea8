"use client";
import { type RefObject, useRef, useState } from "react";
import { type Typed, typedIn } from "./keptTyped";

/** Fields whose contents are no longer what was sent, with what stands in them now: nothing for a box that was unticked. */
function changedSince(sent: Typed, now: Typed): Typed {
  const names = new Set([...Object.keys(sent), ...Object.keys(now)]);
  return Object.fromEntries(
    [...names]
      .filter((name) => JSON.stringify(sent[name] ?? []) !== JSON.stringify(now[name] ?? []))
      .map((name) => [name, now[name] ?? []]),
  );
}

interface Caret {
  readonly name: string;
  readonly from: number | null;
  readonly to: number | null;
}

function caretIn(form: HTMLFormElement): Caret | undefined {
  const at = document.activeElement;
  if (!(at instanceof HTMLInputElement || at instanceof HTMLTextAreaElement) || at.form !== form)
    return undefined;
  return { name: at.name, from: at.selectionStart, to: at.selectionEnd };
}

/**
 * What a person types while the answer to a form is on its way. The answer draws the controls anew; a field that was typed
 * in since the form was sent keeps its contents, and the caret its place.
 */
export function useTypedMeanwhile(form: RefObject<HTMLFormElement | null>) {
  const sent = useRef<Typed>(undefined);
  const caret = useRef<Caret>(undefined);
  const [found, setFound] = useState<Typed>();
  return {
    /** By field; undefined before the first answer. */
    found,
    begin: (typed: Typed) => {
      sent.current = typed;
    },
    /** The answer is here, and its controls are not drawn yet. */
    answered: () => {
      const changed = form.current && sent.current ? changedSince(sent.current, typedIn(form.current)) : {};
      caret.current = form.current && Object.keys(changed).length > 0 ? caretIn(form.current) : undefined;
      setFound(changed);
    },
    /** The controls are drawn anew: whoever was typing goes on. */
    goOn: () => {
      const { name, from, to } = caret.current ?? {};
      const field = name && form.current?.querySelector<HTMLInputElement>(`[name="${CSS.escape(name)}"]`);
      caret.current = undefined;
      if (!field || !["", "BODY"].includes(document.activeElement?.tagName ?? "")) return;
      field.focus({ preventScroll: true });
      // Kinds of input without a caret, such as a number's, refuse to have one set.
      if (typeof from === "number" && typeof to === "number") field.setSelectionRange(from, to);
    },
  };
}
