import { createCipheriv, createDecipheriv, hkdfSync, randomBytes } from "node:crypto";

/** Encrypts small secrets for storing. */
export interface Sealer {
  /** `bound` is whom it belongs to: sealed for one, it does not open for another. */
  seal(plain: string, bound: string): string;
  /** Null where it was sealed for another, with another key, or was changed. */
  open(sealed: string, bound: string): string | null;
}

const VERSION = "1";
const IV_BYTES = 12;
const TAG_BYTES = 16;

/** AES-256-GCM (NIST SP 800-38D) with a key of its own, derived from the server's secret by HKDF-SHA-256 (RFC 5869). */
export function sealerOf(secret: string, purpose: string): Sealer {
  const key = Buffer.from(hkdfSync("sha256", secret, "throttlewright", purpose, 32));
  return {
    seal(plain, bound) {
      const iv = randomBytes(IV_BYTES);
      const cipher = createCipheriv("aes-256-gcm", key, iv);
      cipher.setAAD(Buffer.from(bound));
      const text = Buffer.concat([cipher.update(plain, "utf8"), cipher.final()]);
      return `${VERSION}.${Buffer.concat([iv, cipher.getAuthTag(), text]).toString("base64url")}`;
    },
    open(sealed, bound) {
      const [version, body = ""] = sealed.split(".");
      const bytes = Buffer.from(body, "base64url");
      if (version !== VERSION || bytes.length < IV_BYTES + TAG_BYTES) return null;
      const decipher = createDecipheriv("aes-256-gcm", key, bytes.subarray(0, IV_BYTES), {
        authTagLength: TAG_BYTES,
      });
      decipher.setAAD(Buffer.from(bound));
      decipher.setAuthTag(bytes.subarray(IV_BYTES, IV_BYTES + TAG_BYTES));
      try {
        const plain = decipher.update(bytes.subarray(IV_BYTES + TAG_BYTES));
        return Buffer.concat([plain, decipher.final()]).toString("utf8");
      } catch {
        // The tag does not match: there is nothing to read, and no more to be told about why.
        return null;
      }
    },
  };
}
