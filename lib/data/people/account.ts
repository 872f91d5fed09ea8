import { directory } from "@/lib/db/directory";
import { newToken, tokenHash } from "@/lib/db/token";
import { Refusal } from "@/lib/domain/refusal";
import { demandGoodPassword, hashPassword, passwordMatches } from "./passwords";

/** Changes a password and signs out every other session. Answers the new session version. */
export async function changePassword(
  personId: string,
  sessionId: string,
  input: { currentPassword: string; password: string },
  now: Date,
): Promise<void> {
  const person = await directory().read.person.findUniqueOrThrow({
    where: { id: personId },
    select: { passwordHash: true, email: true },
  });
  if (!(await passwordMatches(person.passwordHash, input.currentPassword)))
    throw new Refusal("The present password is not that.", "Enter it once more.", {
      currentPassword: "Does not match.",
    });
  demandGoodPassword(input.password, person.email);
  const passwordHash = await hashPassword(input.password);
  await directory().write(async (tx) => {
    await tx.person.update({ where: { id: personId }, data: { passwordHash }, select: { id: true } });
    await tx.session.deleteMany({ where: { personId, NOT: { id: sessionId } } });
    await tx.securityEvent.create({ data: { at: now, act: "changed password", personId } });
  });
}

const RESET_HOURS = 2;

/** A token to set a new password with; null where there is no such person. */
export async function askReset(email: string, now: Date): Promise<string | null> {
  const person = await directory().read.person.findUnique({ where: { email }, select: { id: true } });
  if (!person) return null;
  const token = newToken();
  await directory().write(async (tx) => {
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
      data: { at: now, act: "asked for a new password", personId: person.id },
    });
  });
  return token.text;
}

/** Sets a new password by a reset token, once, and signs out everywhere. */
export async function resetPassword(token: string, password: string, now: Date): Promise<void> {
  const hash = tokenHash(token);
  const found = await directory().read.reset.findUnique({
    where: { tokenHash: hash },
    select: { personId: true, person: { select: { email: true } } },
  });
  if (!found) throw refusedReset();
  demandGoodPassword(password, found.person.email);
  const passwordHash = await hashPassword(password);
  await directory().write(async (tx) => {
    const used = await tx.reset.updateMany({
      where: { tokenHash: hash, usedAt: null, expiresAt: { gt: now } },
      data: { usedAt: now },
    });
    if (used.count !== 1) throw refusedReset();
    await tx.person.update({
      where: { id: found.personId },
      data: { passwordHash, sessionVersion: { increment: 1 } },
      select: { id: true },
    });
    await tx.session.deleteMany({ where: { personId: found.personId } });
    await tx.securityEvent.create({ data: { at: now, act: "set a new password", personId: found.personId } });
  });
}

function refusedReset(): Refusal {
  return new Refusal("This link is used or over.", "Ask for a new one.");
}

/** True when the address has a sign-in here. Only asked for an address that holds an invitation. */
export async function isKnown(email: string): Promise<boolean> {
  return (await directory().read.person.findUnique({ where: { email }, select: { id: true } })) !== null;
}
