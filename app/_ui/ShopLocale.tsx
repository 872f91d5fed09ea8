"use client";
import type { ReactNode } from "react";
import { LocaleContext } from "./localeContext";

/** Says for all fields within in which form the shop writes dates. */
export function ShopLocale({ locale, children }: { locale: string; children: ReactNode }) {
  return <LocaleContext value={locale}>{children}</LocaleContext>;
}
