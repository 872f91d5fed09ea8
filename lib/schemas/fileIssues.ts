import type { z } from "zod";

/** One thing that a file cannot be read for: where it stands, and what is wrong with it. */
export interface FileIssue {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

type Issue = z.core.$ZodIssue;

/** The issues of a file in words, each with its place as a person finds it: “options, entry 4 “Main jet”, parts, entry 1, quantityMilli”. */
export function fileIssues(issues: readonly Issue[], value: unknown): FileIssue[] {
  return issues.flatMap((issue): FileIssue[] => {
    const path = issue.path.map((step) => (typeof step === "symbol" ? String(step) : step));
    const place = placeOf(path, value);
    const say = (message: string, at: readonly (string | number)[] = path): FileIssue => ({
      path: at,
      message: `${place}: ${message}`,
    });
    if (issue.code === "unrecognized_keys")
      return issue.keys.map((key) => say(`“${key}” is not known here. Take it out.`, [...path, key]));
    const there = path.reduce<unknown>((at, step) => (at as Record<string | number, unknown>)?.[step], value);
    if (there === undefined && issue.code !== "custom") return [say("it is missing. Add it.")];
    return [say(wrong(issue, there))];
  });
}

function wrong(issue: Issue, there: unknown): string {
  if (issue.code === "invalid_value")
    return `it is ${shown(there)}. It can be ${issue.values.map((one) => shown(one)).join(" or ")}.`;
  if (issue.code === "invalid_type")
    return `it is ${shown(there)}. It has to be ${KINDS[issue.expected] ?? issue.expected}.`;
  if (issue.code === "invalid_union") return `it is of no known kind. Look at “kind”.`;
  if (issue.code === "too_big" && issue.origin === "array")
    return `it has more than ${issue.maximum} entries. Keep it within ${issue.maximum}.`;
  if (issue.code === "too_big" && issue.origin === "string")
    return `it is too long. Keep it within ${issue.maximum} characters.`;
  return issue.message;
}

const KINDS: Readonly<Record<string, string>> = {
  string: "text in quotes",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  array: "a list in [ ]",
  object: "an entry in { }",
};

function shown(value: unknown): string {
  if (Array.isArray(value)) return "a list";
  if (value !== null && typeof value === "object") return "an entry in { }";
  const text = typeof value === "string" ? `“${value}”` : String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

function placeOf(path: readonly (string | number)[], value: unknown): string {
  let at = value;
  const words = path.map((step) => {
    at = (at as Record<string | number, unknown> | undefined)?.[step];
    if (typeof step === "string") return step;
    const { name, key } = (at ?? {}) as { name?: unknown; key?: unknown };
    const called = [name, key].find((one) => typeof one === "string" && one.trim() !== "");
    return `entry ${step + 1}${called === undefined ? "" : ` ${shown(called)}`}`;
  });
  return words.join(", ") || "The whole of it";
}

/** Halves of a character (lone surrogates), which no database and no canonical text takes, become the replacement character. */
function whole(part: unknown): unknown {
  if (typeof part === "string") return part.toWellFormed();
  if (part === null || typeof part !== "object" || Array.isArray(part)) return part;
  return Object.fromEntries(Object.entries(part).map(([key, value]) => [key.toWellFormed(), value]));
}

/** JSON out of text; where it is none, the line and column at which it stops being it, and what to look for. */
export function jsonOf(text: string): { value: unknown } | { failed: string } {
  try {
    return { value: JSON.parse(text, (_key, part: unknown) => whole(part)) as unknown };
  } catch (cause) {
    if (!(cause instanceof SyntaxError)) throw cause;
    const found = /at position (\d+)/.exec(cause.message);
    const before = found ? text.slice(0, Number(found[1])) : text;
    const lines = before.split("\n");
    const column = (lines.at(-1)?.length ?? 0) + 1;
    const look =
      found && Number(found[1]) < text.length
        ? "Look there for a missing comma, quote or bracket."
        : "It ends too early: a quote or bracket is never closed.";
    return { failed: `This is not JSON from line ${lines.length}, column ${column} on. ${look}` };
  }
}
