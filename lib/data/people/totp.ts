import { generateSecret, generateURI, verify } from "otplib";

/** RFC 6238 with what every authenticator app takes: HMAC-SHA-1, six figures, steps of 30 seconds. */
const STEP_S = 30;

/** A secret of 160 bits in base32, as RFC 4226, 4 recommends. */
export function newTotpSecret(): string {
  return generateSecret({ length: 20 });
}

/** The address an authenticator app reads off a QR code. */
export function totpAddress(secret: string, person: string): string {
  return generateURI({ issuer: "Throttlewright", label: person, secret });
}

/** True where a code was taken for a later time than this clock now allows: the clock was set back. */
export function clockIsBehind(lastStep: number, now: Date): boolean {
  return lastStep > Math.floor(now.getTime() / 1000 / STEP_S) + 1;
}

/**
 * The time step of a right code, or null. One step of drift either way (RFC 6238, 5.2); a step up to `lastStep` counts no
 * more, so that a code is taken once. `secret` in base32, `code` of six figures.
 */
export async function stepOfCode(
  secret: string,
  code: string,
  lastStep: number,
  now: Date,
): Promise<number | null> {
  if (clockIsBehind(lastStep, now)) return null;
  const result = await verify({
    secret,
    token: code,
    epoch: Math.floor(now.getTime() / 1000),
    epochTolerance: STEP_S,
    afterTimeStep: lastStep,
  });
  return result.valid && "timeStep" in result ? result.timeStep : null;
}
