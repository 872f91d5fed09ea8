/** Letters and figures of RFC 4648 base32, in small letters: none is taken for another when read aloud or off paper. */
export const RECOVERY_ALPHABET = "abcdefghijklmnopqrstuvwxyz234567";
export const RECOVERY_COUNT = 10;
/** 16 letters of 5 bits: 80 bits, beyond guessing even from their hashes (NIST SP 800-63B-4, 3.1.2.2 asks for 64 where they are hashed plainly: from memory). */
export const RECOVERY_LETTERS = 16;

export type TypedCode = { readonly kind: "app" | "recovery"; readonly code: string };

/** What was typed at the second step: six figures of the app or a recovery code, blanks and hyphens aside; null is neither. */
export function readCode(typed: string): TypedCode | null {
  if (typed.length > 60) return null;
  const plain = typed.replace(/[\s-]/g, "").toLowerCase();
  if (/^\d{6}$/.test(plain)) return { kind: "app", code: plain };
  if (new RegExp(`^[a-z2-7]{${RECOVERY_LETTERS}}$`).test(plain)) return { kind: "recovery", code: plain };
  return null;
}

/** A code or a secret in groups of four, for reading and typing. */
export function inFours(code: string, between = "-"): string {
  return (code.match(/.{1,4}/g) ?? []).join(between);
}
