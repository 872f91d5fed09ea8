import { configuration } from "@/lib/configuration/configuration";

/** The secret that signs sessions. The start command makes one; production without one does not run. */
export function authSecret(): string {
  const secret = configuration().NEXTAUTH_SECRET;
  if (secret === undefined)
    throw new Error("NEXTAUTH_SECRET is not set. `npm start` makes one in the data folder.");
  return secret;
}
