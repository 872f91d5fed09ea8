import { configuration } from "@/lib/configuration/configuration";
import { type DirectoryTx, directory } from "@/lib/db/directory";
import { MOST_TRIES, nextTry } from "@/lib/domain/mail/tries";
import { Refusal } from "@/lib/domain/refusal";

/** Mails to people as such: what each kind needs to be written. What it says is made as it leaves (mailTexts). */
export type MailToQueue =
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
/** A mail that could not leave by then is of no use: a link asked for is asked for again. */
const USEFUL_MS: Record<MailToQueue["kind"], number> = {
  reset: 2 * HOUR,
  "sign-up": 24 * HOUR,
  "password changed": 48 * HOUR,
  "second factor off": 48 * HOUR,
  "new device": 48 * HOUR,
};

/** More than any honest day's mails; beyond it something is wrong, with the mail server or with who asks. */
const MOST_WAITING = 5_000;

/** Mails leave by SMTP_URL; without it nobody is written to, and nothing is queued. */
export function mailIsSetUp(): boolean {
  return configuration().SMTP_URL !== undefined;
}

/**
 * Puts a mail into the directory's mail queue, in the transaction of what it tells. Where the mail queue is full, what was asked
 * for is refused; what only tells of something done does not stand in its way.
 */
export async function queueMailIn(tx: DirectoryTx, mail: MailToQueue, now: Date): Promise<void> {
  if (!mailIsSetUp()) return;
  if ((await tx.mail.count()) >= MOST_WAITING) {
    if (mail.kind !== "reset" && mail.kind !== "sign-up") return;
    throw new Refusal(
      "Too many mails wait to be sent, so nothing was done.",
      "Try again in an hour, or tell whoever runs this server.",
    );
  }
  await tx.mail.create({
    data: {
      kind: mail.kind,
      to: mail.to,
      detail: mail.detail,
      createdAt: now,
      nextAt: now,
      expiresAt: new Date(now.getTime() + USEFUL_MS[mail.kind]),
    },
    select: { id: true },
  });
}

/** Puts a mail into the mail queue by itself. */
export async function sendPeopleMail(mail: MailToQueue, now: Date): Promise<void> {
  await directory().write((tx) => queueMailIn(tx, mail, now));
}

/** A mail taken for sending. */
export interface TakenMail {
  readonly id: number;
  readonly mail: MailToQueue;
}

/** Takes the mail that waits longest, and puts it off in case it does not get away. */
export async function takeMail(now: Date): Promise<TakenMail | null> {
  return directory().write(async (tx) => {
    const row = await tx.mail.findFirst({
      where: { nextAt: { lte: now }, expiresAt: { gt: now }, tries: { lt: MOST_TRIES } },
      orderBy: [{ nextAt: "asc" }, { id: "asc" }],
    });
    if (!row) return null;
    const tries = row.tries + 1;
    const { count } = await tx.mail.updateMany({
      where: { id: row.id, tries: row.tries },
      data: { tries, nextAt: nextTry(tries, now) ?? row.expiresAt },
    });
    if (count !== 1) return null;
    const { kind, to, detail } = row;
    return { id: row.id, mail: { kind, to, detail } as MailToQueue };
  });
}

/** Sent, or with nobody to send it to: nothing of it is kept. */
export async function dropMail(id: number): Promise<void> {
  await directory().write((tx) => tx.mail.deleteMany({ where: { id } }));
}

/** Keeps why a mail did not get away; it is tried again. */
export async function noteFailure(id: number, why: string): Promise<void> {
  await directory().write((tx) =>
    tx.mail.updateMany({ where: { id }, data: { failure: why.slice(0, 300) } }),
  );
}

/** Throws away mails that are of no use any more. */
export async function sweepMails(now: Date): Promise<number> {
  const { count } = await directory().write((tx) =>
    tx.mail.deleteMany({ where: { expiresAt: { lte: now } } }),
  );
  return count;
}
