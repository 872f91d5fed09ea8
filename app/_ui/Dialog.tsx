"use client";
import { type ReactNode, useCallback, useId, useRef, useState } from "react";
import { Button } from "./Button";
import type { ButtonSize, ButtonTone } from "./buttonLook";
import { DialogContext } from "./dialogContext";
import { words } from "./words";

export interface DialogProps {
  /** Words on the button that opens it. */
  trigger: ReactNode;
  triggerTone?: ButtonTone | undefined;
  triggerSize?: ButtonSize | undefined;
  triggerClassName?: string | undefined;
  title: ReactNode;
  children: ReactNode;
}

/** A button and the dialog it opens. The browser keeps focus inside, Esc closes, focus returns. A form inside closes it on success. */
export function Dialog({
  trigger,
  triggerTone,
  triggerSize,
  triggerClassName,
  title,
  children,
}: DialogProps) {
  const id = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  const [opened, setOpened] = useState(0);
  const close = useCallback(() => dialog.current?.close(), []);
  const open = () => {
    setOpened((n) => n + 1);
    dialog.current?.showModal();
  };
  return (
    <>
      <Button
        tone={triggerTone}
        size={triggerSize}
        className={triggerClassName}
        aria-haspopup="dialog"
        onClick={open}
      >
        {trigger}
      </Button>
      <dialog ref={dialog} aria-labelledby={id} className="sheet">
        <div className="flex items-start justify-between gap-4 border-ink border-b-2 px-5 pt-4 pb-2">
          <h2 id={id} className="font-bold text-xl">
            {title}
          </h2>
          <Button tone="quiet" onClick={close}>
            {words.close}
          </Button>
        </div>
        <div key={opened} className="px-5 py-4">
          <DialogContext value={close}>{opened > 0 && children}</DialogContext>
        </div>
      </dialog>
    </>
  );
}
