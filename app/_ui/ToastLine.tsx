"use client";
import { useEffect, useEffectEvent, useRef, useState } from "react";
import { type FormAction, UNASKED } from "./formState";
import { useKitWords } from "./kitWords";
import { randomKey } from "./randomKey";
import { Shape } from "./Shape";
import { SubmitButton } from "./SubmitButton";
import { type ToastText, useToasts } from "./toastContext";
import { useGuardedAction } from "./useGuardedAction";

const nothing: FormAction = async () => UNASKED;
const QUICK_MS = 7_000;
const UNDO_MS = 20_000;

/** One line said in passing. It waits while pointed at or focused, and goes when something else is reached for. */
export function ToastLine({ line, onGone }: { line: ToastText; onGone: () => void }) {
  const words = useKitWords();
  const { undo } = line;
  const [held, setHeld] = useState(false);
  const [key] = useState(randomKey);
  const [state, run] = useGuardedAction(undo?.run ?? nothing);
  const toasts = useToasts();
  const box = useRef<HTMLDivElement>(null);

  const gone = useEffectEvent(onGone);
  const answered = useEffectEvent(() => {
    if (!state.ok) return;
    if (state.toast) toasts.say({ text: state.toast });
    onGone();
  });
  useEffect(() => {
    if (state.seq > 0) answered();
  }, [state]);
  useEffect(() => {
    if (undo) return;
    // Whoever reaches for something else has heard it, and wants what lies under it.
    const elsewhere = (event: PointerEvent) => {
      if (!(event.target instanceof Node && box.current?.contains(event.target))) gone();
    };
    document.addEventListener("pointerdown", elsewhere, { capture: true });
    return () => document.removeEventListener("pointerdown", elsewhere, { capture: true });
  }, [undo]);
  useEffect(() => {
    if (held) return;
    const timer = setTimeout(() => gone(), undo ? UNDO_MS : QUICK_MS);
    return () => clearTimeout(timer);
  }, [held, undo]);

  const refused = state.ok === false ? [state.message, state.remedy].filter(Boolean).join(" ") : undefined;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: only holds the clock while someone reads
    <div
      ref={box}
      className="pointer-events-auto flex max-w-xl flex-wrap items-center gap-x-4 gap-y-1 rounded-[3px] border border-ink bg-sheet px-4 py-1.5"
      onPointerEnter={() => setHeld(true)}
      onPointerLeave={() => setHeld(false)}
      onFocus={() => setHeld(true)}
      onBlur={() => setHeld(false)}
    >
      <span className="flex items-baseline gap-2">
        <Shape shape={refused ? "diamond" : "filled"} tone={refused ? "oxide" : "pine"} />
        {refused ?? line.text}
      </span>
      {undo && (
        <form action={run}>
          <input type="hidden" name="_key" value={key} readOnly />
          {undo.shop !== undefined && <input type="hidden" name="_shop" value={undo.shop} readOnly />}
          {Object.entries(undo.fields).map(([name, value]) => (
            <input key={name} type="hidden" name={name} value={value} readOnly />
          ))}
          <SubmitButton tone="quiet">{undo.label ?? words.undo}</SubmitButton>
        </form>
      )}
      <button
        type="button"
        onClick={onGone}
        className="min-h-8 text-soft text-sm pointer-coarse:min-h-12 pointer-coarse:min-w-12"
      >
        {words.dismiss}
      </button>
    </div>
  );
}
