import { type Letter, type LetterFile, type Mailer, NotSent } from "./mail";

interface Taken extends Omit<Letter, "files"> {
  readonly id: number;
}

/** Where letters wait, with what goes with them as values; lib/data/mail/outbox.ts offers a shop's. */
export interface LetterStore<T extends Taken, E> {
  take(): Promise<T | null>;
  enclosed(id: number): Promise<readonly E[]>;
  sent(letter: T): Promise<void>;
  failed(letter: T, why: string, forGood: boolean): Promise<void>;
}

export interface Sent {
  readonly sent: number;
  readonly failed: number;
}

/** A run sends at most this many, so that a full outbox does not hold up what started it. */
const MOST = 50;

/**
 * Sends what is due, one after the other, `print` making files of what goes with it; a letter whose documents cannot be made
 * does not leave without them. A letter that does not go holds up no other; where no letter can go, the run ends. Without a
 * mailer everything stays where it can be read.
 */
export async function sendDue<T extends Taken, E>(
  letters: LetterStore<T, E>,
  mailer: Mailer | null,
  print: (enclosed: E) => Promise<LetterFile>,
): Promise<Sent> {
  let sent = 0;
  let failed = 0;
  if (!mailer) return { sent, failed };
  while (sent + failed < MOST) {
    const letter = await letters.take();
    if (!letter) break;
    const { id, to, subject, text, messageId } = letter;
    try {
      const files: LetterFile[] = [];
      for (const one of await letters.enclosed(id)) files.push(await print(one));
      await mailer.send({ to, subject, text, files, ...(messageId ? { messageId } : {}) });
    } catch (cause) {
      failed++;
      const failing = cause instanceof NotSent ? cause.failing : "for good";
      await letters.failed(
        letter,
        cause instanceof Error ? cause.message : String(cause),
        failing === "for good",
      );
      if (failing === "all mail") break;
      continue;
    }
    sent++;
    await letters.sent(letter);
  }
  return { sent, failed };
}
