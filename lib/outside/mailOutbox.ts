import type { Letter, Mailer } from "./mail";

/** Where letters wait; lib/data/mail.ts offers a shop's. */
export interface LetterStore {
  take(): Promise<(Letter & { readonly id: number }) | null>;
  sent(id: number): Promise<void>;
  failed(id: number, why: string): Promise<void>;
}

export interface Sent {
  readonly sent: number;
  readonly failed: number;
}

/** A run sends at most this many, so that a full outbox does not hold up what started it. */
const MOST = 50;

/** Sends what waits, one after the other. Without a mailer everything stays where it can be read. */
export async function sendWaiting(letters: LetterStore, mailer: Mailer | null): Promise<Sent> {
  let sent = 0;
  let failed = 0;
  if (!mailer) return { sent, failed };
  while (sent + failed < MOST) {
    const letter = await letters.take();
    if (!letter) break;
    const { id, to, subject, text } = letter;
    try {
      await mailer.send({ to, subject, text });
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
