import { hkdfSync } from "node:crypto";
import { configuration } from "@/lib/configuration/configuration";

/** The secret that signs sessions. The start command makes one; production without one does not run. */
export function authSecret(): string {
  const secret = configuration().NEXTAUTH_SECRET;
  if (secret === undefined)
    throw new Error("NEXTAUTH_SECRET is not set. `npm start` makes one in the data folder.");
  return secret;
}

/**
 * What Next.js seals with it is opened by every process that has the same secret: those of this machine and those of others. By
 * HKDF (RFC 5869) with SHA-256, to a key of AES-256 in Base64.
 */
export function actionKey(): string {
  const key = hkdfSync("sha256", authSecret(), "", "throttlewright server actions", 32);
  return Buffer.from(key).toString("base64");
}
