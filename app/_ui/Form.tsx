"use client";
import {
  type FormEvent,
  lazy,
  type ReactNode,
  Suspense,
  useEffect,
  useEffectEvent,
  useRef,
  useState,
} from "react";
import { cx } from "./cx";
import { useCloseDialog } from "./dialogContext";
import { FormContext } from "./formContext";
import type { FormAction, FormState } from "./formState";
import { forgetTyped, type Typed, typedIn, useKeptTyped } from "./keptTyped";
import { Refused } from "./Refused";
import { randomKey } from "./randomKey";
import { useToasts } from "./toastContext";
import { useTypedMeanwhile } from "./typedMeanwhile";
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
  /** Which form of which record this is: what is typed stays on this device until it was sent. */
  keep?: string | undefined;
  /** Sending it forgets what other forms kept: somebody signs out. */
  forgets?: boolean | undefined;
  /** Called after each success. */
  onDone?: ((state: FormState) => void) | undefined;
}

/** Fetched where an act has to be asked about, which is seldom. */
const Asked = lazy(() => import("./Asked").then((file) => ({ default: file.Asked })));
/** Fetched where a session has ended, which is seldom. */
const SignInAgain = lazy(() => import("./SignInAgain").then((file) => ({ default: file.SignInAgain })));

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
  keep,
  forgets,
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
  const form = useRef<HTMLFormElement>(null);
  const kept = useKeptTyped(form, keep);
  const meanwhile = useTypedMeanwhile(form);
  const heard = (answer: FormState) => {
    meanwhile.answered();
    // Its change may have taken this form off the page.
    if (answer.ok && answer.change) kept.drop(true);
    say(answer);
  };
  const [state, run, pending] = useGuardedAction(action, heard, () => kept.drop(true));
  const [typed, setTyped] = useState<Typed>();
  const [key, setKey] = useState(idempotencyKey ?? "");
  const box = useRef<HTMLDivElement>(null);
  const close = useCloseDialog();

  /** The control of a field, or what stands for it. */
  const fieldOf = (name: string) => {
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
    return frame ? (frame.querySelector<HTMLElement>("[tabindex='0']") ?? frame) : found;
  };

  const settled = useEffectEvent((answer: FormState) => {
    if (!answer.unanswered && !answer.repeated) setKey(randomKey());
    if (answer.ok === false) {
      box.current?.focus();
      // What has to be mended is seen, where it does not stand beside the words: the words are read out wherever they are.
      const [first] = Object.keys(answer.fields ?? {});
      if (first) fieldOf(first)?.scrollIntoView({ block: "nearest" });
    }
    if (!answer.ok) return;
    kept.drop(false);
    meanwhile.goOn();
    say(answer);
    if (!answer.shown) close?.();
    onDone?.(answer);
  });
  useEffect(() => settled(state), [state]);

  const refused = state.ok === false;
  const values = refused ? (typed ?? state.values) : kept.found;
  const send = (event: FormEvent<HTMLFormElement>) => {
    if (event.target !== event.currentTarget) return;
    if (pending) event.preventDefault();
    else {
      const typing = typedIn(event.currentTarget);
      setTyped(typing);
      meanwhile.begin(typing);
      if (forgets) forgetTyped();
    }
  };
  return (
    <form
      ref={form}
      action={run}
      onSubmit={send}
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
          onField={(name) => fieldOf(name)?.focus()}
          act={
            state.signedOut && (
              <Suspense fallback={null}>
                <SignInAgain />
              </Suspense>
            )
          }
        />
      )}
      <input type="hidden" name="_key" value={key} readOnly />
      {shop !== undefined && <input type="hidden" name="_shop" value={shop} readOnly />}
      {Object.entries(hidden ?? {}).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} data-fixed="" readOnly />
      ))}
      <FormContext
        // Between two answers what was kept counts as one of its own: the controls are drawn anew with it.
        value={{
          seq: state.seq + (kept.found && !refused ? 0.5 : 0),
          values,
          meanwhile: meanwhile.found,
          fields: refused ? state.fields : undefined,
          shown: state.shown,
        }}
      >
        {refused && state.asks && (
          <Suspense fallback={null}>
            <Asked asks={state.asks} />
          </Suspense>
        )}
        {children}
      </FormContext>
    </form>
  );
}
