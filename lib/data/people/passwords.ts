import { hash, verify } from "@node-rs/argon2";
import { Refusal } from "@/lib/domain/refusal";
import { demandStrength } from "./strength";

/** OWASP Password Storage Cheat Sheet: argon2id (the library's default kind), 19 MiB, two passes, one lane. */
const COST = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

const LEAST_LENGTH = 10;
const MOST_LENGTH = 200;

/**
 * Refuses passwords that are short or soon guessed; no rules on which characters (ASVS 5.0, 6.2). `about` is what a stranger
 * may know of the person: address, name, shop.
 */
export function demandGoodPassword(password: string, about: readonly string[]): void {
  if (password.length < LEAST_LENGTH)
    throw new Refusal("That password is too short.", "Use at least 10 characters; a few words are fine.", {
      password: "At least 10 characters.",
    });
  if (password.length > MOST_LENGTH)
    throw new Refusal("That password is too long.", `Use at most ${MOST_LENGTH} characters.`, {
      password: `At most ${MOST_LENGTH} characters.`,
    });
  demandStrength(password, ["throttlewright", "carburettor", ...about]);
}

export function hashPassword(password: string): Promise<string> {
  return hash(password, COST);
}

let decoy: Promise<string> | undefined;

/** Compares in the same time whether or not there is such a person. */
export async function passwordMatches(stored: string | undefined, password: string): Promise<boolean> {
  decoy ??= hashPassword("no such person at all");
  const same = await verify(stored ?? (await decoy), password);
  return stored !== undefined && same;
}
