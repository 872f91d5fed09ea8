import type { Metadata, Viewport } from "next";
import { cookies, headers } from "next/headers";
import type { ReactNode } from "react";
import { pageLocale } from "@/lib/gate/customer";
import { languageOf } from "@/lib/words/language";
import { AREAS } from "@/lib/words/words";
import { FACES } from "./_ui/fonts";
import { KitLanguage } from "./_ui/kitWords";
import { Toasts } from "./_ui/Toasts";
import { themeOf } from "./_ui/theme";
import "./globals.css";

export const metadata: Metadata = {
  description: "Quotes, jets, bays, settings and invoices for carburettor tuners.",
  robots: { index: false },
};

export const viewport: Viewport = {
  width: "device-width",
  initialScale: 1,
  viewportFit: "cover",
  themeColor: [
    { media: "(prefers-color-scheme: light)", color: "#f6f2e8" },
    { media: "(prefers-color-scheme: dark)", color: "#15181a" },
  ],
};

export default async function RootLayout({ children }: { children: ReactNode }) {
  const theme = themeOf((await cookies()).get("theme")?.value);
  const language = languageOf(await pageLocale((await headers()).get("x-page") ?? ""));
  const framed = <Toasts>{children}</Toasts>;
  return (
    <html lang={language} data-theme={theme} className={FACES} suppressHydrationWarning>
      <body>
        {language === "en" ? framed : <KitLanguage words={AREAS.kit[language]}>{framed}</KitLanguage>}
      </body>
    </html>
  );
}
