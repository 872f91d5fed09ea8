import { createHash } from "node:crypto";

/** A value as text with its keys in order: the same on every kind of database, whatever order it kept keys in. */
export function canonicalText(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    part !== null && typeof part === "object" && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}

/** SHA-256 of the canonical text, in hexadecimal. */
export function hashOf(value: unknown): string {
  return createHash("sha256").update(canonicalText(value)).digest("hex");
}
