import { type LetterKind, letterOf, PLACEHOLDERS, type PlaceholderName, usable } from "./kinds";

/** A letter's words: plain text with placeholders such as {name}. */
export interface LetterText {
  readonly subject: string;
  readonly text: string;
}

const MARK = /\{([^{}]*)\}/gu;
const named = (text: string): string[] => [...text.matchAll(MARK)].map(([, name = ""]) => name.trim());
const list = (names: readonly string[]): string => names.map((name) => `{${name}}`).join(", ");
const isBlock = (name: PlaceholderName): boolean => "block" in PLACEHOLDERS[name];

/**
 * What is wrong with a letter's words, by field; empty where nothing is. Unknown placeholders are named together with those
 * that may be used, missing ones with what the letter cannot do without. Common practice, no source.
 */
export function letterFaults(kind: LetterKind, { subject, text }: LetterText): Partial<LetterText> {
  const may = usable(kind);
  const inText = fault(text, may);
  const inSubject = fault(
    subject,
    may.filter((name) => !isBlock(name)),
  );
  const missing = letterOf(kind).needs.filter((name) => !named(text).includes(name));
  const needed = missing
    .map((name) => `Put {${name}} in: without it the customer does not get ${PLACEHOLDERS[name].means}.`)
    .join(" ");
  return {
    ...(inSubject ? { subject: inSubject } : {}),
    ...(inText || needed ? { text: [inText, needed].filter(Boolean).join(" ") } : {}),
  };
}

function fault(said: string, may: readonly PlaceholderName[]): string {
  const strange = [...new Set(named(said))].filter((name) => !may.some((one) => one === name));
  if (strange.length > 0)
    return `${list(strange)} ${strange.length === 1 ? "is" : "are"} not known here. You may use ${list(may)}.`;
  return /[{}]/u.test(said.replace(MARK, ""))
    ? "A { or } stands alone: write placeholders as {name}, and no other braces."
    : "";
}

/**
 * A letter with its values put in. A line of the text that has a placeholder with nothing to say is left out whole, and of
 * several blank lines one stays. What stands in a value is never taken for a placeholder.
 */
export function fillLetter(
  { subject, text }: LetterText,
  values: Readonly<Partial<Record<string, string>>>,
): LetterText {
  const value = (name: string) => values[name.trim()]?.trim() ?? "";
  const put = (said: string) => said.replace(MARK, (_, name: string) => value(name));
  const lines = text.split(/\r?\n/u).filter((line) => named(line).every((name) => value(name) !== ""));
  return {
    subject: put(subject).replace(/\s+/gu, " ").trim(),
    text: put(lines.join("\n"))
      .replace(/[ \t]+$/gmu, "")
      .replace(/\n{3,}/gu, "\n\n")
      .trim(),
  };
}
