"use client";
import { createContext, useContext } from "react";

/** The shop's language and formats, for fields that are typed in its form. */
export const LocaleContext = createContext("en-GB");

export const useShopLocale = (): string => useContext(LocaleContext);
