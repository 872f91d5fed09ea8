import { type DirectoryTx, directory } from "@/lib/db/directory";
import { demandOne } from "@/lib/db/guard";
import { newToken, tokenHash } from "@/lib/db/token";
import { Refusal } from "@/lib/domain/refusal";
import { queueMailIn } from "./mails";
import { demandGoodPassword, hashPassword, passwordMatches } from "./passwords";

/** Refuses what is not a person's own present password, asked again before something weighty. */
export async function demandOwnPassword(personId: string, given: string): Promise<void> {
  const person = await directory().read.person.findUniqueOrThrow({
    where: { id: personId },
    select: { passwordHash: true },
  });
  if (!(await passwordMatches(person.passwordHash, given)))
    throw new Refusal("The present password is not that.", "Enter it once more.", {
      currentPassword: "Does not match.",
    });
}

/** Changes a password, signs out every other session, forgets known devices and voids every link that would set another. */
export async function changePassword(
  personId: string,
  sessionId: string,
  input: { currentPassword: string; password: string },
  now: Date,
): Promise<void> {
  const person = await directory().read.person.findUniqueOrThrow({
    where: { id: personId },
    select: { passwordHash: true, email: true, name: true },
  });
  await demandOwnPassword(personId, input.currentPassword);
  demandGoodPassword(input.password, [person.email, person.name]);
  const passwordHash = await hashPassword(input.password);
  await directory().write(async (tx) => {
    await demandOne(
      tx.person.updateMany({
        where: { id: personId, passwordHash: person.passwordHash },
        data: { passwordHash },
      }),
      () =>
        new Refusal(
          "Your password was changed elsewhere meanwhile, so this change was not made.",
          "Sign in with the new one.",
          {},
          "conflict",
        ),
    );
    await tx.session.deleteMany({ where: { personId, NOT: { id: sessionId } } });
    await tx.knownDevice.deleteMany({ where: { personId } });
    await voidResets(tx, personId, now);
    await tx.securityEvent.create({ data: { at: now, act: "changed the password", personId } });
    await queueMailIn(tx, { kind: "password changed", to: person.email, detail: {} }, now);
  });
}

const RESET_HOURS = 2;

/** A token to set a new password with, for the person with this address; those before count no more. Null for nobody. */
export async function makeReset(email: string, now: Date): Promise<string | null> {
  const person = await directory().read.person.findUnique({ where: { email }, select: { id: true } });
  if (!person) return null;
  const token = newToken();
  await directory().write(async (tx) => {
    await voidResets(tx, person.id, now);
    await tx.reset.create({
      data: {
        personId: person.id,
        tokenHash: token.hash,
        createdAt: now,
        expiresAt: new Date(now.getTime() + RESET_HOURS * 3_600_000),
      },
      select: { id: true },
    });
    await tx.securityEvent.create({
      data: { at: now, act: "was sent a link for a new password", personId: person.id },
    });
  });
  return token.text;
}

/** Sets a new password by a reset token, once, signs out everywhere, forgets known devices and voids every other such link. */
export async function resetPassword(token: string, password: string, now: Date): Promise<void> {
  const hash = tokenHash(token);
  const found = await directory().read.reset.findFirst({
    where: { tokenHash: hash, usedAt: null, expiresAt: { gt: now } },
    select: { personId: true, person: { select: { email: true, name: true } } },
  });
  if (!found) throw refusedReset();
  const { personId, person } = found;
  demandGoodPassword(password, [person.email, person.name]);
  const passwordHash = await hashPassword(password);
  await directory().write(async (tx) => {
    await demandOne(
      tx.reset.updateMany({
        where: { tokenHash: hash, usedAt: null, expiresAt: { gt: now } },
        data: { usedAt: now },
      }),
      () => refusedReset(),
    );
    await tx.person.update({
      where: { id: personId },
      data: { passwordHash, sessionVersion: { increment: 1 } },
      select: { id: true },
    });
    await tx.session.deleteMany({ where: { personId } });
    await tx.knownDevice.deleteMany({ where: { personId } });
    await voidResets(tx, personId, now);
    await tx.securityEvent.create({ data: { at: now, act: "set a new password by a link", personId } });
    await queueMailIn(tx, { kind: "password changed", to: person.email, detail: {} }, now);
  });
}

function voidResets(tx: DirectoryTx, personId: string, now: Date) {
  return tx.reset.updateMany({ where: { personId, usedAt: null }, data: { usedAt: now } });
}

function refusedReset(): Refusal {
  return new Refusal("This link is used or over.", "Ask for a new one.");
}

/** True when the address has a sign-in here. Only asked for an address that holds an invitation, or by the post. */
export async function isKnown(email: string): Promise<boolean> {
  return (await directory().read.person.findUnique({ where: { email }, select: { id: true } })) !== null;
}
