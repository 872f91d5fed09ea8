import { createHash, randomBytes } from "node:crypto";

/** A 160-bit random token for a link: the text goes out once, only its hash is kept. */
export function newToken(): { text: string; hash: string } {
  const text = randomBytes(20).toString("base64url");
  return { text, hash: tokenHash(text) };
}

export function tokenHash(text: string): string {
  return createHash("sha256").update(text).digest("hex");
}
