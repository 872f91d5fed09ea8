"use client";
import { createContext, useContext } from "react";
import type { FormAction, UndoOffer } from "./formState";

export interface ToastUndo extends UndoOffer {
  readonly run: FormAction;
  readonly shop?: string | undefined;
}

export interface ToastText {
  readonly text: string;
  readonly undo?: ToastUndo | undefined;
}

export interface ToastSpeaker {
  readonly say: (toast: ToastText) => void;
}

export const ToastContext = createContext<ToastSpeaker>({ say: () => {} });

/** Says something in passing. */
export const useToasts = (): ToastSpeaker => useContext(ToastContext);
