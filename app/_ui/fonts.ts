import localFont from "next/font/local";

/**
 * The faces of text and figures, from their packages. The browser fetches them with the page and has a moment to show them; a page
 * that was drawn before they came keeps the fallback, so that nothing moves under a finger, and the next one has them.
 */
const text = localFont({
  src: [
    {
      path: "../../node_modules/@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff2",
      weight: "400",
    },
    {
      path: "../../node_modules/@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-600-normal.woff2",
      weight: "600",
    },
    {
      path: "../../node_modules/@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff2",
      weight: "700",
    },
  ],
  variable: "--face-text",
  display: "optional",
  fallback: ["system-ui", "sans-serif"],
});

const figures = localFont({
  src: [
    {
      path: "../../node_modules/@fontsource/atkinson-hyperlegible-mono/files/atkinson-hyperlegible-mono-latin-400-normal.woff2",
      weight: "400",
    },
    {
      path: "../../node_modules/@fontsource/atkinson-hyperlegible-mono/files/atkinson-hyperlegible-mono-latin-700-normal.woff2",
      weight: "700",
    },
  ],
  variable: "--face-figures",
  display: "optional",
  // A face for text would set figures in columns of unequal width.
  adjustFontFallback: false,
  fallback: ["ui-monospace", "monospace"],
});

/** On the page's root: names both faces for the tokens. */
export const FACES = `${text.variable} ${figures.variable}`;
