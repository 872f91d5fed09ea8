import { randomUUID } from "node:crypto";
import { directory } from "@/lib/db/directory";
import { newToken, tokenHash } from "@/lib/db/token";
import { Refusal } from "@/lib/domain/refusal";
import { queueMailIn } from "./mails";
import { passwordMatches } from "./passwords";
import type { ReadyPerson } from "./signUp";

export interface ShopWish {
  readonly shopName: string;
  readonly country: string;
  readonly altitudeM?: number | undefined;
  /** Degrees, both or neither. */
  readonly latitude?: number | undefined;
  readonly longitude?: number | undefined;
}

const HOURS = 24;

/**
 * Keeps a wish to open a shop until its mail is answered. Nothing here looks whether the address is known: that is for
 * the mail's reader alone.
 */
export async function keepSignUp(person: ReadyPerson, wish: ShopWish, now: Date): Promise<void> {
  await directory().write(async (tx) => {
    const signUp = await tx.signUp.create({
      data: {
        id: randomUUID(),
        email: person.email,
        name: person.name,
        passwordHash: person.passwordHash,
        shopName: wish.shopName,
        country: wish.country,
        altitudeM: wish.altitudeM ?? null,
        latitude: wish.latitude ?? null,
        longitude: wish.longitude ?? null,
        createdAt: now,
        expiresAt: new Date(now.getTime() + HOURS * 3_600_000),
      },
      select: { id: true },
    });
    await queueMailIn(tx, { kind: "sign-up", to: person.email, detail: { signUpId: signUp.id } }, now);
  });
}

/** A token that finishes a sign-up, and what shop it opens; one made before counts no more. Null where it is over. */
export async function makeSignUpToken(
  id: string,
  now: Date,
): Promise<{ token: string; shopName: string } | null> {
  const token = newToken();
  const { count } = await directory().write((tx) =>
    tx.signUp.updateMany({ where: { id, expiresAt: { gt: now } }, data: { tokenHash: token.hash } }),
  );
  if (count !== 1) return null;
  const { shopName } = await directory().read.signUp.findUniqueOrThrow({
    where: { id },
    select: { shopName: true },
  });
  return { token: token.text, shopName };
}

/** What a sign-up link opens, while it counts. */
export async function signUpOf(token: string, now: Date) {
  const found = await directory().read.signUp.findUnique({ where: { tokenHash: tokenHash(token) } });
  return found && found.expiresAt > now ? found : null;
}

/** The sign-up of a link, shown to be of the person who filled in the form: who only gets the mail knows no password. */
export async function provenSignUp(token: string, password: string, now: Date) {
  const found = await signUpOf(token, now);
  if (!found)
    throw new Refusal(
      "This link is used or over.",
      "Sign in if your shop is open already; else open it again from the start.",
    );
  if (!(await passwordMatches(found.passwordHash, password)))
    throw new Refusal(
      "That is not the password this shop was asked for with.",
      "Enter it once more, or open the shop again from the start.",
      { currentPassword: "Does not match." },
    );
  return found;
}

/** Forgets sign-ups of an address: it has a person now. */
export async function forgetSignUps(email: string): Promise<void> {
  await directory().write((tx) => tx.signUp.deleteMany({ where: { email } }));
}

export async function sweepSignUps(now: Date): Promise<number> {
  const { count } = await directory().write((tx) =>
    tx.signUp.deleteMany({ where: { expiresAt: { lte: now } } }),
  );
  return count;
}
