"use client";
import { useEffect, useEffectEvent, useRef, useState } from "react";
import { flushSync } from "react-dom";
import { Button } from "./Button";
import { words } from "./words";

const KEYS: readonly (readonly [string, string])[] = [
  ["/", words.keySearch],
  ["↑ ↓", words.keyRows],
  ["Home End", words.keyEnds],
  ["Enter", words.keyOpen],
  ["Esc", words.keyClose],
  ["?", words.keyHelp],
];

const typing = (target: EventTarget | null) =>
  target instanceof HTMLElement && (target.isContentEditable || target.matches("input, textarea, select"));

/** Listens for `/` and `?`, and lists the keys. Stand it once in a page. */
export function KeyHelp() {
  const dialog = useRef<HTMLDialogElement>(null);
  const [opened, setOpened] = useState(false);
  const open = () => {
    // Drawn before it is shown, so that the focus goes inside.
    flushSync(() => setOpened(true));
    dialog.current?.showModal();
  };
  const asked = useEffectEvent(open);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || typing(event.target)) return;
      if (document.querySelector("dialog[open]")) return;
      if (event.key === "?") asked();
      else if (event.key === "/") {
        const field = document.querySelector<HTMLElement>("[data-find]");
        if (field) field.focus();
        else document.querySelector<HTMLElement>("[data-find-link]")?.click();
      } else return;
      event.preventDefault();
    };
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  }, []);
  return (
    <>
      <button
        type="button"
        aria-haspopup="dialog"
        className="min-h-6 text-[14px] text-soft hover:text-ink pointer-coarse:min-h-12"
        onClick={open}
      >
        <kbd className="font-mono">?</kbd> {words.keys}
      </button>
      <dialog ref={dialog} aria-label={words.keysTitle} className="sheet">
        {opened && <Keys close={() => dialog.current?.close()} />}
      </dialog>
    </>
  );
}

function Keys({ close }: { close: () => void }) {
  return (
    <>
      <div className="flex items-center justify-between gap-4 border-ink border-b-2 px-5 pt-4 pb-2">
        <h2 className="font-bold text-ink text-xl">{words.keysTitle}</h2>
        <Button tone="quiet" onClick={close}>
          {words.close}
        </Button>
      </div>
      <dl className="grid grid-cols-[auto_minmax(0,1fr)] gap-x-6 gap-y-2 px-5 py-4 text-base text-ink">
        {KEYS.map(([key, does]) => (
          <div key={key} className="contents">
            <dt className="font-mono">{key}</dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}
