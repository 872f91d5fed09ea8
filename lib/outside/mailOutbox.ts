import type { Letter, LetterFile, Mailer } from "./mail";

/** Where letters wait, with what goes with them as values; lib/data/mail/outbox.ts offers a shop's. */
export interface LetterStore<E> {
  take(): Promise<(Omit<Letter, "files"> & { readonly id: number }) | null>;
  enclosed(id: number): Promise<readonly E[]>;
  sent(id: number): Promise<void>;
  failed(id: number, why: string): Promise<void>;
}

export interface Sent {
  readonly sent: number;
  readonly failed: number;
}

/** A run sends at most this many, so that a full outbox does not hold up what started it. */
const MOST = 50;

/**
 * Sends what waits, one after the other, `print` making files of what goes with it; a letter whose documents cannot be made
 * does not leave without them. Without a mailer everything stays where it can be read.
 */
export async function sendWaiting<E>(
  letters: LetterStore<E>,
  mailer: Mailer | null,
  print: (enclosed: E) => Promise<LetterFile>,
): Promise<Sent> {
  let sent = 0;
  let failed = 0;
  if (!mailer) return { sent, failed };
  while (sent + failed < MOST) {
    const letter = await letters.take();
    if (!letter) break;
    const { id, to, subject, text } = letter;
    try {
      const files: LetterFile[] = [];
      for (const one of await letters.enclosed(id)) files.push(await print(one));
      await mailer.send({ to, subject, text, files });
    } catch (cause) {
      failed++;
      await letters.failed(id, cause instanceof Error ? cause.message : String(cause));
      continue;
    }
    sent++;
    await letters.sent(id);
  }
  return { sent, failed };
}
