import { randomUUID } from "node:crypto";
import { earliest } from "@/lib/db/due";
import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { letterHtml } from "@/lib/domain/letters/html";
import { MOST_TRIES, nextTry } from "@/lib/domain/mail/tries";
import { Refusal } from "@/lib/domain/refusal";
import { type Enclosed, enclosedWith } from "./attachments";

export interface TakenMail {
  readonly id: number;
  readonly to: string;
  readonly subject: string;
  readonly text: string;
  /** A letter's words once more, in the papers' look. */
  readonly html?: string;
  /** The shop's own address, where it has one. */
  readonly replyTo?: string;
  /** The same at every try. */
  readonly messageId: string;
  /** Which try this is, from 1. */
  readonly tries: number;
}

/** A shop's mails on their way out, as the sender needs them. */
export interface MailQueue {
  /** Takes the oldest mail that is due for sending, so that no other sender takes it too; null when none is. */
  take(): Promise<TakenMail | null>;
  /** What goes with a mail, out of what was frozen. */
  enclosed(id: number): Promise<readonly Enclosed[]>;
  sent(mail: TakenMail): Promise<void>;
  /** The mail stays readable with why it did not go; it is tried again later unless that is of no use. */
  failed(mail: TakenMail, why: string, forGood: boolean): Promise<void>;
}

/** Longer than a sender may take for one mail. A mail whose sender was stopped is taken up again after it. */
export const HELD_MS = 3 * 60_000;

/** Mails that are due: new ones, those to be tried again, and those whose sender was stopped. */
function dueAt(now: Date): Prisma.MailWhereInput {
  return {
    OR: [
      { state: "waiting", OR: [{ nextAt: null }, { nextAt: { lte: now } }] },
      { state: "sending", OR: [{ heldUntil: null }, { heldUntil: { lte: now } }] },
    ],
  };
}

/** True where a mail is due. */
export async function hasMailDue(shop: ShopHandle): Promise<boolean> {
  return (
    (await shop.read.mail.findFirst({
      where: dueAt(shop.now),
      select: { id: true },
      orderBy: { id: "asc" },
    })) !== null
  );
}

/** When a mail is due next, `shop.now` where one is already; null where none waits. */
export async function nextMail({ read, now }: ShopHandle): Promise<Date | null> {
  if (await read.mail.findFirst({ where: dueAt(now), select: { id: true }, orderBy: { id: "asc" } }))
    return now;
  const waiting = { state: "waiting", nextAt: { gt: now } } as const;
  const sending = { state: "sending", heldUntil: { gt: now } } as const;
  const [again, held] = [
    await read.mail.aggregate({ where: waiting, _min: { nextAt: true } }),
    await read.mail.aggregate({ where: sending, _min: { heldUntil: true } }),
  ];
  return earliest([again._min.nextAt, held._min.heldUntil]);
}

/** `clock`: sending takes longer than a request, whose one moment would not do. */
export function mailQueueOf(shop: ShopHandle, clock: () => Date = () => shop.now): MailQueue {
  return {
    take: () =>
      shop.write(async (tx) => {
        const now = clock();
        const where = dueAt(now);
        await tx.mail.updateMany({
          where: { ...where, tries: { gte: MOST_TRIES } },
          data: {
            state: "failed",
            failure: "Whoever sent it was stopped each time.",
            nextAt: null,
            heldUntil: null,
          },
        });
        const mail = await tx.mail.findFirst({
          where,
          select: {
            id: true,
            to: true,
            subject: true,
            text: true,
            letter: true,
            language: true,
            messageId: true,
            tries: true,
          },
          orderBy: [{ tries: "asc" }, { id: "asc" }],
        });
        if (!mail) return null;
        const taken = { messageId: mail.messageId || randomUUID(), tries: mail.tries + 1 };
        await tx.mail.updateMany({
          where: { id: mail.id, ...where },
          data: { ...taken, state: "sending", heldUntil: new Date(now.getTime() + HELD_MS) },
        });
        const { email } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { email: true } });
        const { letter, language, ...plain } = mail;
        return {
          ...plain,
          ...taken,
          ...(letter ? { html: letterHtml(mail.text, language) } : {}),
          ...(email ? { replyTo: email } : {}),
        };
      }),
    enclosed: (id) => enclosedWith(shop, id),
    sent: ({ id }) =>
      shop.write(async (tx) => {
        // Sent is sent, also where this sender had been given up and another one has the mail.
        await tx.mail.updateMany({
          where: { id, state: { not: "sent" } },
          data: { state: "sent", sentAt: clock(), failure: "", nextAt: null, heldUntil: null },
        });
      }),
    failed: ({ id, tries }, why, forGood) =>
      shop.write(async (tx) => {
        const nextAt = forGood ? null : nextTry(tries, clock());
        await tx.mail.updateMany({
          where: { id, state: "sending", tries },
          data: { state: nextAt ? "waiting" : "failed", failure: why.slice(0, 300), nextAt, heldUntil: null },
        });
      }),
  };
}

const LET_GO = { state: "waiting", tries: 0, failure: "", nextAt: null } as const;

/** Lets one mail go that was held back because the shop was opened as a copy. */
export async function releaseHeld(shop: ShopHandle, id: number): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(
      tx.mail.updateMany({ where: { id, state: "held" }, data: LET_GO }),
      () => new Refusal("It is not held back any more.", "Look at the list again.", {}, "conflict"),
    );
    await audit(tx, shop, "let go what was held back", "mail", id);
  });
}

/** Lets all mails go that are held back. Answers how many they were. */
export async function releaseAllHeld(shop: ShopHandle): Promise<number> {
  return shop.write(async (tx) => {
    const { count } = await tx.mail.updateMany({ where: { state: "held" }, data: LET_GO });
    if (count > 0) await audit(tx, shop, "let go what was held back", "mail", null, { count });
    return count;
  });
}

/** Puts a mail that did not go back among those that are due, as if it had not been tried. */
export async function retryMail(shop: ShopHandle, id: number): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(
      tx.mail.updateMany({
        where: { id, OR: [{ state: "failed" }, { state: "waiting", tries: { gt: 0 } }] },
        data: { state: "waiting", tries: 0, nextAt: null },
      }),
      () =>
        new Refusal(
          "This mail has gone meanwhile, or is being sent.",
          "Look at the list again.",
          {},
          "conflict",
        ),
    );
    await audit(tx, shop, "retry", "mail", id);
  });
}
