import { languageOf } from "@/lib/words/language";
import { letters } from "@/lib/words/letters";
import { paperWords } from "@/lib/words/papers";
import { AREAS } from "@/lib/words/words";

const MARKS: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'" };

/** The words that a reader of HTML sees: what stands in the body, without its marks. */
export function wordsOfHtml(html: string): string[] {
  const body = /<body[^>]*>(.*)<\/body>/su.exec(html)?.[1] ?? "";
  const text = body
    .replace(/<[^>]*>/gu, "")
    .replace(/&(amp|lt|gt|quot|#39);/gu, (_, name: string) => MARKS[name] ?? "");
  return wordsOf(text);
}

/** A text's words, however they are set apart. */
export const wordsOf = (text: string): string[] => text.split(/\s+/u).filter(Boolean);

/** Words that an English sentence hardly does without, and that no Norwegian one has. */
export const ENGLISH =
  /\b(?:the|and|your|you|with|of|this|that|quote|ready|price|shop|please|work|bike|deposit|accept|accepted|days?|hours|from|paid|what|number|before|will|it|total|tick|said)\b/giu;

/** All text of the catalogue in one language: pages, letters, papers. */
function everyText(locale: string): string[] {
  const language = languageOf(locale);
  const found: string[] = [];
  const walk = (tree: unknown): void => {
    if (typeof tree === "string") found.push(tree);
    else if (typeof tree === "object" && tree !== null) Object.values(tree).forEach(walk);
  };
  walk(Object.values(AREAS).map((area) => area[language]));
  walk(letters[language]);
  walk(paperWords(locale));
  return found;
}

/** Letters alone, as a reader of PDFs finds them. */
const squashed = (text: string): string => text.replace(/[^\p{L}]+/gu, "").toLowerCase();

/** A piece that is shorter may stand in a Norwegian word too. */
const LEAST = 10;

/** Pieces of the English catalogue between its placeholders, without those that stand in the Norwegian one. */
function englishPieces(): string[] {
  const norwegian = squashed(everyText("nb-NO").join(" "));
  const pieces = everyText("en-GB")
    .flatMap((text) => text.split(/\{[^{}]*\}|[{}\n]/u))
    .map(squashed);
  return [...new Set(pieces)].filter((piece) => piece.length >= LEAST && !norwegian.includes(piece));
}

const PIECES = englishPieces();

/** English of the catalogue that stands in a text which should have none. */
export function catalogueEnglish(text: string): string[] {
  const said = squashed(text);
  return PIECES.filter((piece) => said.includes(piece));
}
