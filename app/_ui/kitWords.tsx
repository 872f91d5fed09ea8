"use client";
import { createContext, type ReactNode, useContext } from "react";
import { words } from "./words";

/** What forms and messages say by themselves on pages that customers read. */
export type KitWords = Readonly<
  Record<
    | "sending"
    | "unreachable"
    | "unreachableRemedy"
    | "broke"
    | "brokeRemedy"
    | "undo"
    | "dismiss"
    | "messages",
    string
  >
>;

const Context = createContext<KitWords>(words);

/** The words of a page in another language than English; English pages bring none. */
export function KitLanguage({ words: said, children }: { words: KitWords; children: ReactNode }) {
  return <Context value={said}>{children}</Context>;
}

export const useKitWords = (): KitWords => useContext(Context);
