/** The secret that signs sessions. The start command makes one; production without one does not run. */
export function authSecret(): string {
  const secret = process.env.NEXTAUTH_SECRET ?? "";
  if (secret.length < 32)
    throw new Error(
      "NEXTAUTH_SECRET must be at least 32 characters. `npm start` makes one in the data folder.",
    );
  return secret;
}
