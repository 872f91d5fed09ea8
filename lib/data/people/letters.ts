import { configuration } from "@/lib/configuration/configuration";
import { type DirectoryTx, directory } from "@/lib/db/directory";
import { Refusal } from "@/lib/domain/refusal";

/** Letters to people as such: what each kind needs to be written. What it says is made as it leaves (letterTexts). */
export type LetterToQueue =
  | { readonly kind: "reset"; readonly to: string; readonly detail: Record<string, never> }
  | { readonly kind: "sign-up"; readonly to: string; readonly detail: { readonly signUpId: string } }
  | { readonly kind: "password changed"; readonly to: string; readonly detail: Record<string, never> }
  | { readonly kind: "second factor off"; readonly to: string; readonly detail: Record<string, never> }
  | {
      readonly kind: "new device";
      readonly to: string;
      readonly detail: { readonly device: string; readonly address: string; readonly at: string };
    };

const HOUR = 3_600_000;
/** A letter that could not leave by then is of no use: a link asked for is asked for again. */
const USEFUL_MS: Record<LetterToQueue["kind"], number> = {
  reset: 2 * HOUR,
  "sign-up": 24 * HOUR,
  "password changed": 48 * HOUR,
  "second factor off": 48 * HOUR,
  "new device": 48 * HOUR,
};

/** More than any honest day's letters; beyond it something is wrong, with the mail server or with who asks. */
const MOST_WAITING = 5_000;

/** Letters leave by SMTP_URL; without it nobody is written to, and nothing is queued. */
export function mailIsSetUp(): boolean {
  return configuration().SMTP_URL !== undefined;
}

/**
 * Puts a letter into the directory's outbox, in the transaction of what it tells. Where the outbox is full, what was asked
 * for is refused; what only tells of something done does not stand in its way.
 */
export async function queueLetter(tx: DirectoryTx, letter: LetterToQueue, now: Date): Promise<void> {
  if (!mailIsSetUp()) return;
  if ((await tx.letter.count()) >= MOST_WAITING) {
    if (letter.kind !== "reset" && letter.kind !== "sign-up") return;
    throw new Refusal(
      "Too many letters wait to be sent, so nothing was done.",
      "Try again in an hour, or tell whoever runs this server.",
    );
  }
  await tx.letter.create({
    data: {
      kind: letter.kind,
      to: letter.to,
      detail: letter.detail,
      createdAt: now,
      nextAt: now,
      expiresAt: new Date(now.getTime() + USEFUL_MS[letter.kind]),
    },
    select: { id: true },
  });
}

/** Puts a letter into the outbox by itself. */
export async function sendLetter(letter: LetterToQueue, now: Date): Promise<void> {
  await directory().write((tx) => queueLetter(tx, letter, now));
}

const MOST_TRIES = 8;

/** A letter taken for sending. */
export interface TakenLetter {
  readonly id: number;
  readonly letter: LetterToQueue;
}

/** Takes the letter that waits longest, and puts it off in case it does not get away: 1, 2, 4, 8 minutes and so on. */
export async function takeLetter(now: Date): Promise<TakenLetter | null> {
  return directory().write(async (tx) => {
    const row = await tx.letter.findFirst({
      where: { nextAt: { lte: now }, expiresAt: { gt: now }, tries: { lt: MOST_TRIES } },
      orderBy: [{ nextAt: "asc" }, { id: "asc" }],
    });
    if (!row) return null;
    const nextAt = new Date(now.getTime() + 60_000 * 2 ** row.tries);
    const { count } = await tx.letter.updateMany({
      where: { id: row.id, tries: row.tries },
      data: { tries: row.tries + 1, nextAt },
    });
    if (count !== 1) return null;
    const { kind, to, detail } = row;
    return { id: row.id, letter: { kind, to, detail } as LetterToQueue };
  });
}

/** Sent, or with nobody to send it to: nothing of it is kept. */
export async function dropLetter(id: number): Promise<void> {
  await directory().write((tx) => tx.letter.deleteMany({ where: { id } }));
}

/** Keeps why a letter did not get away; it is tried again. */
export async function noteFailure(id: number, why: string): Promise<void> {
  await directory().write((tx) =>
    tx.letter.updateMany({ where: { id }, data: { failure: why.slice(0, 300) } }),
  );
}

/** Throws away letters that are of no use any more. */
export async function sweepLetters(now: Date): Promise<number> {
  const { count } = await directory().write((tx) =>
    tx.letter.deleteMany({ where: { expiresAt: { lte: now } } }),
  );
  return count;
}
