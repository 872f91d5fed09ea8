import { directory } from "@/lib/db/directory";
import { tokenHash } from "@/lib/db/token";

/** A browser's token counts for one person: what is stored is a hash of both. */
const bound = (token: string, personId: string) => tokenHash(`${token}:${personId}`);

const MOST_DEVICES = 20;

/** True where this person signed in on this browser before, and within `days`. */
export async function knowsDevice(email: string, token: string, now: Date, days: number): Promise<boolean> {
  const person = await directory().read.person.findUnique({ where: { email }, select: { id: true } });
  if (!person) return false;
  const found = await directory().read.knownDevice.findUnique({
    where: { tokenHash: bound(token, person.id) },
    select: { lastSeenAt: true },
  });
  return found !== null && now.getTime() - found.lastSeenAt.getTime() < days * 86_400_000;
}

/**
 * Remembers the browser that a person has just signed in on; beyond the newest twenty the oldest are forgotten. True where
 * it is new.
 */
export async function rememberDevice(personId: string, token: string, now: Date): Promise<boolean> {
  const hash = bound(token, personId);
  return directory().write(async (tx) => {
    const known = await tx.knownDevice.findUnique({
      where: { tokenHash: hash },
      select: { tokenHash: true },
    });
    await tx.knownDevice.upsert({
      where: { tokenHash: hash },
      create: { tokenHash: hash, personId, createdAt: now, lastSeenAt: now },
      update: { lastSeenAt: now },
      select: { tokenHash: true },
    });
    const all = await tx.knownDevice.findMany({
      where: { personId },
      select: { tokenHash: true },
      orderBy: { lastSeenAt: "desc" },
    });
    const old = all.slice(MOST_DEVICES).map((row) => row.tokenHash);
    if (old.length) await tx.knownDevice.deleteMany({ where: { tokenHash: { in: old } } });
    return known === null;
  });
}
