"use client";
import { createContext, useContext } from "react";

/** Closes the dialog around, if there is one. */
export const DialogContext = createContext<(() => void) | null>(null);

/** The first thing to fill in, rather than the way out. */
export function focusFirst(dialog: HTMLDialogElement): void {
  dialog.querySelector<HTMLElement>("input:not([type=hidden]), select, textarea")?.focus();
}

export const useCloseDialog = (): (() => void) | null => useContext(DialogContext);
