"use client";
import { type FormEvent, type ReactNode, useEffect, useEffectEvent, useRef, useState } from "react";
import { cx } from "./cx";
import { useCloseDialog } from "./dialogContext";
import { FormContext } from "./formContext";
import type { FormAction, FormState } from "./formState";
import { Refused } from "./Refused";
import { randomKey } from "./randomKey";
import { useToasts } from "./toastContext";
import { useGuardedAction } from "./useGuardedAction";

export interface FormProps {
  action: FormAction;
  /** Takes back what was done: offered in the toast when the answer holds `undo`. */
  undo?: FormAction | undefined;
  children: ReactNode;
  /** Sent as `_shop`. */
  shop?: string | undefined;
  /** Sent as `_key` until the page is live, when a random one replaces it. Empty means none. */
  idempotencyKey?: string | undefined;
  /** Other fixed values to send. */
  hidden?: Readonly<Record<string, string>> | undefined;
  label?: string | undefined;
  className?: string | undefined;
  /** Called after each success. */
  onDone?: ((state: FormState) => void) | undefined;
}

/** What stands in a form. The server sends less of it back, or nothing; a password is typed anew. */
function typedIn(form: HTMLFormElement): Record<string, string[]> {
  const typed = new Map<string, string[]>();
  for (const [name, value] of new FormData(form)) {
    if (typeof value !== "string" || /^[$_]|password/i.test(name)) continue;
    const before = typed.get(name);
    if (before) before.push(value);
    else typed.set(name, [value]);
  }
  return Object.fromEntries(typed);
}

/** A form over a server action: says refusals, keeps what was typed, is recorded once. Works without scripts. */
export function Form({
  action,
  undo,
  children,
  shop,
  idempotencyKey,
  hidden,
  label,
  className,
  onDone,
}: FormProps) {
  const toasts = useToasts();
  const said = useRef<FormState>(undefined);
  const say = (answer: FormState) => {
    if (!answer.ok || !answer.toast || said.current === answer) return;
    said.current = answer;
    const offer = answer.undo && undo ? { ...answer.undo, shop, run: undo } : undefined;
    toasts.say({ text: answer.toast, undo: offer });
  };
  const [state, run, pending] = useGuardedAction(action, say);
  const [typed, setTyped] = useState<Record<string, string[]>>();
  const [key, setKey] = useState(idempotencyKey ?? "");
  const box = useRef<HTMLDivElement>(null);
  const form = useRef<HTMLFormElement>(null);
  const close = useCloseDialog();

  const settled = useEffectEvent((answer: FormState) => {
    if (!answer.unanswered && !answer.repeated) setKey(randomKey());
    if (answer.ok === false) box.current?.focus();
    if (!answer.ok) return;
    say(answer);
    if (!answer.shown) close?.();
    onDone?.(answer);
  });
  useEffect(() => settled(state), [state]);

  const refused = state.ok === false;
  const values = refused ? (typed ?? state.values) : undefined;
  const keep = (event: FormEvent<HTMLFormElement>) => {
    if (event.target !== event.currentTarget) return;
    if (pending) event.preventDefault();
    else setTyped(typedIn(event.currentTarget));
  };
  const goTo = (name: string) => {
    const named = (one: string) =>
      form.current?.querySelector<HTMLElement>(`[name="${CSS.escape(one)}"], [name="${CSS.escape(one)}[]"]`);
    // A place inside a field leads to it: one box of several, or one entry of a file's text.
    const [field = name, ...within] = name.split(".");
    const tick = () =>
      form.current?.querySelector<HTMLElement>(
        `[name="${CSS.escape(field)}[]"][value="${CSS.escape(within.join("."))}"]`,
      );
    const found = named(name) ?? tick() ?? named(field);
    const frame = found?.dataset.focus && document.getElementById(found.dataset.focus);
    (frame ? (frame.querySelector<HTMLElement>("[tabindex='0']") ?? frame) : found)?.focus();
  };

  return (
    <form
      ref={form}
      action={run}
      onSubmit={keep}
      noValidate
      aria-label={label}
      className={cx("min-w-0", className)}
    >
      {refused && state.message && (
        <Refused
          boxRef={box}
          message={state.message}
          remedy={state.remedy}
          fields={state.fields}
          onField={goTo}
        />
      )}
      <input type="hidden" name="_key" value={key} readOnly />
      {shop !== undefined && <input type="hidden" name="_shop" value={shop} readOnly />}
      {Object.entries(hidden ?? {}).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} readOnly />
      ))}
      <FormContext
        value={{ seq: state.seq, values, fields: refused ? state.fields : undefined, shown: state.shown }}
      >
        {children}
      </FormContext>
    </form>
  );
}
