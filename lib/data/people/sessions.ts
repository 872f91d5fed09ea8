import { randomBytes } from "node:crypto";
import { directory } from "@/lib/db/directory";
import { deviceWords } from "@/lib/domain/access/device";
import { Refusal } from "@/lib/domain/refusal";
import { queueMailIn } from "./mails";
import { passwordMatches } from "./passwords";

export interface LiveSession {
  readonly sessionId: string;
  readonly personId: string;
  readonly name: string;
  readonly email: string;
}

/** The person with this address and password; the same refusal for an unknown address and a wrong password. */
export async function authenticate(email: string, password: string, now: Date) {
  const person = await directory().read.person.findUnique({
    where: { email },
    select: { id: true, name: true, passwordHash: true, sessionVersion: true },
  });
  const right = await passwordMatches(person?.passwordHash, password.slice(0, 200));
  if (person && right) return person;
  await directory().write((tx) =>
    tx.securityEvent.create({
      data: {
        at: now,
        act: "was refused at sign-in",
        personId: person?.id ?? null,
        detail: person ? "wrong password" : email.slice(0, 120),
      },
    }),
  );
  throw new Refusal("That address and password do not match.", "Check both and try again.");
}

/** What a session's token says of a person. */
export async function signedInPerson(id: string) {
  return directory().read.person.findUniqueOrThrow({
    where: { id },
    select: { name: true, email: true, sessionVersion: true },
  });
}

/** Where a session is begun from, as the request says. */
export interface SessionPlace {
  /** The User-Agent header. */
  readonly agent: string;
  readonly address: string;
  readonly newDevice: boolean;
}

const MOST_AGENT = 300;

/** Begins a session, notes it, and writes to its person where the device is new to them. */
export async function beginSession(
  person: { readonly id: string; readonly email: string },
  { agent, address, newDevice }: SessionPlace,
  now: Date,
  days: number,
): Promise<string> {
  const id = randomBytes(20).toString("base64url");
  const expiresAt = new Date(now.getTime() + days * 86_400_000);
  const device = deviceWords(agent);
  await directory().write(async (tx) => {
    await tx.session.deleteMany({ where: { expiresAt: { lt: now } } });
    await tx.session.create({
      data: {
        id,
        personId: person.id,
        agent: agent.slice(0, MOST_AGENT),
        address,
        createdAt: now,
        lastSeenAt: now,
        expiresAt,
      },
      select: { id: true },
    });
    await tx.securityEvent.create({
      data: {
        at: now,
        act: newDevice ? "signed in on a new device" : "signed in",
        personId: person.id,
        detail: `${device}, from ${address}`,
      },
    });
    if (newDevice)
      await queueMailIn(
        tx,
        { kind: "new device", to: person.email, detail: { device, address, at: now.toISOString() } },
        now,
      );
  });
  return id;
}

const SEEN_EVERY_MS = 5 * 60_000;

/** The session if it still counts: not ended, not idle too long, of the person's present version. */
export async function liveSession(
  id: string,
  version: number,
  now: Date,
  idleHours: number,
): Promise<LiveSession | null> {
  const found = await directory().read.session.findUnique({
    where: { id },
    select: {
      lastSeenAt: true,
      expiresAt: true,
      person: { select: { id: true, name: true, email: true, sessionVersion: true } },
    },
  });
  if (!found || found.person.sessionVersion !== version || found.expiresAt <= now) return null;
  const idle = now.getTime() - found.lastSeenAt.getTime();
  if (idle > idleHours * 3_600_000) return null;
  if (idle > SEEN_EVERY_MS)
    await directory().write((tx) => tx.session.updateMany({ where: { id }, data: { lastSeenAt: now } }));
  const { id: personId, name, email } = found.person;
  return { sessionId: id, personId, name, email };
}

export async function endSession(id: string): Promise<void> {
  await directory().write((tx) => tx.session.deleteMany({ where: { id } }));
}

/** Signs a person out everywhere: every token issued so far stops counting. */
export async function endAllSessions(personId: string, now: Date): Promise<void> {
  await directory().write(async (tx) => {
    await tx.session.deleteMany({ where: { personId } });
    await tx.person.update({
      where: { id: personId },
      data: { sessionVersion: { increment: 1 } },
      select: { id: true },
    });
    await tx.securityEvent.create({ data: { at: now, act: "signed out everywhere", personId } });
  });
}
