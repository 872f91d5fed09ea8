"use client";
import { type ReactNode, useCallback, useEffect, useId, useRef, useState } from "react";
import { createPortal } from "react-dom";
import { Button } from "./Button";
import type { ButtonSize, ButtonTone } from "./buttonLook";
import { DialogContext, focusFirst } from "./dialogContext";
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
  useEffect(() => {
    if (opened === 0) return;
    if (!dialog.current) return;
    dialog.current.showModal();
    focusFirst(dialog.current);
  }, [opened]);
  return (
    <>
      <Button
        tone={triggerTone}
        size={triggerSize}
        className={triggerClassName}
        aria-haspopup="dialog"
        onClick={() => setOpened((times) => times + 1)}
      >
        {trigger}
      </Button>
      {/* At the end of the page: a form in here may not stand inside another form. */}
      {opened > 0 &&
        createPortal(
          <dialog ref={dialog} aria-labelledby={id} className="sheet">
            <div className="flex items-center justify-between gap-4 border-ink border-b-2 px-5 pt-4 pb-2">
              <h2 id={id} className="font-bold text-xl">
                {title}
              </h2>
              <Button tone="quiet" onClick={close}>
                {words.close}
              </Button>
            </div>
            <div key={opened} className="px-5 py-4">
              <DialogContext value={close}>{children}</DialogContext>
            </div>
          </dialog>,
          document.body,
        )}
    </>
  );
}
