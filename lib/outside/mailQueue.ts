import { type Mail, type Mailer, type MailFile, NotSent } from "./mail";

interface Taken extends Omit<Mail, "files"> {
  readonly id: number;
}

/** Where mails wait, with what goes with them as values; lib/data/mail/queue.ts offers a shop's. */
export interface MailStore<T extends Taken, E> {
  take(): Promise<T | null>;
  enclosed(id: number): Promise<readonly E[]>;
  sent(mail: T): Promise<void>;
  failed(mail: T, why: string, forGood: boolean): Promise<void>;
}

export interface Sent {
  readonly sent: number;
  readonly failed: number;
}

/** A run sends at most this many, so that a full mail queue does not hold up what started it. */
const MOST = 50;

/**
 * Sends what is due, one after the other, `print` making files of what goes with it; a mail whose documents cannot be made
 * does not leave without them. A mail that does not go holds up no other; where no mail can go, the run ends. Without a
 * mailer everything stays where it can be read.
 */
export async function sendDue<T extends Taken, E>(
  mails: MailStore<T, E>,
  mailer: Mailer | null,
  print: (enclosed: E) => Promise<MailFile>,
): Promise<Sent> {
  let sent = 0;
  let failed = 0;
  if (!mailer) return { sent, failed };
  while (sent + failed < MOST) {
    const mail = await mails.take();
    if (!mail) break;
    const { id, to, subject, text, html, replyTo, messageId } = mail;
    try {
      const files: MailFile[] = [];
      for (const one of await mails.enclosed(id)) files.push(await print(one));
      await mailer.send({
        to,
        subject,
        text,
        files,
        ...(html ? { html } : {}),
        ...(replyTo ? { replyTo } : {}),
        ...(messageId ? { messageId } : {}),
      });
    } catch (cause) {
      failed++;
      const failing = cause instanceof NotSent ? cause.failing : "for good";
      await mails.failed(
        mail,
        cause instanceof Error ? cause.message : String(cause),
        failing === "for good",
      );
      if (failing === "all mail") break;
      continue;
    }
    sent++;
    await mails.sent(mail);
  }
  return { sent, failed };
}
