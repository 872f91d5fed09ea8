import { directory } from "@/lib/db/directory";
import { tokenHash } from "@/lib/db/token";
import { deviceWords } from "@/lib/domain/access/device";
import { Refusal } from "@/lib/domain/refusal";

/** A session as its person sees it. */
export interface OwnSession {
  /** Names it to its person: a hash, since its id is half of what opens it. */
  readonly mark: string;
  readonly device: string;
  readonly address: string;
  readonly createdAt: Date;
  readonly lastSeenAt: Date;
  readonly isThis: boolean;
}

const MOST = 100;

/** The sessions of a person that still count, last used first. */
export async function ownSessions(
  personId: string,
  sessionId: string,
  now: Date,
  idleHours: number,
): Promise<OwnSession[]> {
  const rows = await directory().read.session.findMany({
    where: {
      personId,
      expiresAt: { gt: now },
      lastSeenAt: { gte: new Date(now.getTime() - idleHours * 3_600_000) },
    },
    select: { id: true, agent: true, address: true, createdAt: true, lastSeenAt: true },
    orderBy: { lastSeenAt: "desc" },
    take: MOST,
  });
  return rows.map(({ id, agent, ...row }) => ({
    ...row,
    mark: tokenHash(id),
    device: deviceWords(agent),
    isThis: id === sessionId,
  }));
}

/** Ends one session of a person, by its mark. */
export async function endOwnSession(personId: string, mark: string, now: Date): Promise<void> {
  const rows = await directory().read.session.findMany({
    where: { personId },
    select: { id: true, agent: true },
    orderBy: { id: "asc" },
  });
  const found = rows.find((row) => tokenHash(row.id) === mark);
  const ended = found
    ? await directory().write(async (tx) => {
        const { count } = await tx.session.deleteMany({ where: { id: found.id, personId } });
        if (count === 1)
          await tx.securityEvent.create({
            data: { at: now, act: "ended a session", personId, detail: deviceWords(found.agent) },
          });
        return count;
      })
    : 0;
  if (ended !== 1) throw new Refusal("That device is signed out already.", "Load the page again.");
}

/** Ends every session of a person but this one. Answers how many. */
export async function endOtherSessions(personId: string, sessionId: string, now: Date): Promise<number> {
  return directory().write(async (tx) => {
    const { count } = await tx.session.deleteMany({ where: { personId, NOT: { id: sessionId } } });
    await tx.securityEvent.create({
      data: { at: now, act: "signed out everywhere else", personId, detail: `${count} sessions` },
    });
    return count;
  });
}
