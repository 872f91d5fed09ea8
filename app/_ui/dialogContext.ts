"use client";
import { createContext, useContext } from "react";

/** Closes the dialog around, if there is one. */
export const DialogContext = createContext<(() => void) | null>(null);

export const useCloseDialog = (): (() => void) | null => useContext(DialogContext);
