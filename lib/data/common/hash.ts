import { createHash } from "node:crypto";
import canonicalize from "canonicalize";

/** A value as canonical JSON (RFC 8785): the same text on every kind of database, whatever order it kept keys in. */
export function canonicalText(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new Error("There is no JSON of nothing.");
  return text;
}

/** SHA-256 of the canonical text, in hexadecimal. */
export function hashOf(value: unknown): string {
  return createHash("sha256").update(canonicalText(value)).digest("hex");
}
