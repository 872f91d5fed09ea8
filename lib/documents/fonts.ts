import { readFileSync } from "node:fs";
import { join } from "node:path";

/** A face per style: the text face and the figure face, each with its extension, and one for all other scripts. */
export type Face = "Text" | "Figure";
type Family = Face | "TextMore" | "FigureMore" | "Other";

const packages = join(process.cwd(), "node_modules");
const hyperlegible = (kind: "next" | "mono", part: "latin" | "latin-ext", weight: 400 | 700) =>
  join(
    packages,
    "@fontsource",
    `atkinson-hyperlegible-${kind}`,
    "files",
    `atkinson-hyperlegible-${kind}-${part}-${weight}-normal.woff`,
  );

const FILES: Readonly<Record<Family, readonly [normal: string, bold: string]>> = {
  Text: [hyperlegible("next", "latin", 400), hyperlegible("next", "latin", 700)],
  TextMore: [hyperlegible("next", "latin-ext", 400), hyperlegible("next", "latin-ext", 700)],
  Figure: [hyperlegible("mono", "latin", 400), hyperlegible("mono", "latin", 700)],
  FigureMore: [hyperlegible("mono", "latin-ext", 400), hyperlegible("mono", "latin-ext", 700)],
  Other: [
    join(packages, "pdfmake", "fonts", "Roboto", "Roboto-Regular.ttf"),
    join(packages, "pdfmake", "fonts", "Roboto", "Roboto-Medium.ttf"),
  ],
};

interface FontStore {
  writeFileSync(name: string, content: Uint8Array): void;
}

/** Puts the faces into the printer's own store, so that it never opens a file itself; answers its font table. */
export function loadFonts(store: FontStore): Record<string, { normal: string; bold: string }> {
  const table: Record<string, { normal: string; bold: string }> = {};
  for (const [family, [normal, bold]] of Object.entries(FILES)) {
    store.writeFileSync(`${family}-normal`, readFileSync(normal));
    store.writeFileSync(`${family}-bold`, readFileSync(bold));
    table[family] = { normal: `${family}-normal`, bold: `${family}-bold` };
  }
  return table;
}

/** Characters that the files of one alphabet hold; read out of the files of @fontsource 5.3.0. */
const LATIN =
  /^[ -~\u00a0-\u00ac\u00ae-\u00b4\u00b6-\u00ff\u0102\u0131\u0152\u0153\u02c6\u02da\u02dc\u2009\u2013\u2014\u2018-\u201a\u201c-\u201e\u2022\u2026\u2039\u203a\u2044\u20ac\u2122\u2212\u2215]+$/u;
const LATIN_MORE =
  /^[\u0100-\u0107\u010a-\u0113\u0116-\u011b\u011e-\u0123\u0126\u0127\u012a-\u012b\u012e-\u0130\u0132\u0133\u0136\u0137\u0139-\u013e\u0141-\u0148\u0150\u0151\u0154\u0155\u0158-\u015b\u015e-\u0165\u016a\u016b\u016e-\u017e\u0192\u0218-\u021b\u0237\u1e80-\u1e85\u1e9e\u1ef2\u1ef3]+$/u;

export interface Run {
  readonly text: string;
  readonly font: Family;
}

function familyOf(character: string, face: Face): Family {
  if (LATIN.test(character) || character === "\n") return face;
  return LATIN_MORE.test(character) ? `${face}More` : "Other";
}

/** Text in runs of one family each. Narrow and figure spaces, which no face holds, become no-break spaces; other controls go. */
export function runsOf(text: string, face: Face): Run[] {
  const plain = text
    .normalize("NFC")
    .replace(/[\u2007\u202f]/gu, "\u00a0")
    .replace(/\r\n?/gu, "\n")
    .replace(/\t/gu, " ")
    .replace(/[\p{Cc}\p{Cf}]/gu, (character) => (character === "\n" ? character : ""));
  const runs: { text: string; font: Family }[] = [];
  for (const character of plain) {
    const font = familyOf(character, face);
    const last = runs.at(-1);
    if (last?.font === font) last.text += character;
    else runs.push({ text: character, font });
  }
  return runs;
}
