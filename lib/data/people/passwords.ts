import { hash, verify } from "@node-rs/argon2";
import { Refusal } from "@/lib/domain/refusal";
import { COMMON_PASSWORDS } from "./commonPasswords";

/** OWASP Password Storage Cheat Sheet: argon2id (the library's default kind), 19 MiB, two passes, one lane. */
const COST = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

export const LEAST_LENGTH = 10;

/** Refuses passwords that are short or commonly guessed; no rules on which characters (ASVS 5.0, 6.2). */
export function demandGoodPassword(password: string, email: string): void {
  const plain = password.toLowerCase();
  if (password.length < LEAST_LENGTH)
    throw new Refusal("That password is too short.", "Use at least 10 characters; a few words are fine.", {
      password: "At least 10 characters.",
    });
  if (password.length > 200)
    throw new Refusal("That password is too long.", "Use at most 200 characters.", {
      password: "At most 200 characters.",
    });
  if (COMMON_PASSWORDS.has(plain) || plain === email.toLowerCase() || /^(.)\1+$/.test(plain))
    throw new Refusal("That password is one of the first that would be guessed.", "Choose another.", {
      password: "Too easily guessed.",
    });
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
