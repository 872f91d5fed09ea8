import type { ShopHandle } from "@/lib/db/shop";
import { type Enclosed, enclosedWith } from "./attachments";

export interface WaitingLetter {
  readonly id: number;
  readonly to: string;
  readonly subject: string;
  readonly text: string;
}

/** A shop's letters on their way out, as the sender needs them. */
export interface Outbox {
  /** Takes the oldest waiting letter for sending, so that no other sender takes it too; null when none waits. */
  take(): Promise<WaitingLetter | null>;
  /** What goes with a letter, out of what was frozen. */
  enclosed(id: number): Promise<readonly Enclosed[]>;
  sent(id: number): Promise<void>;
  /** The letter stays readable with why it did not go. */
  failed(id: number, why: string): Promise<void>;
}

export function outboxOf(shop: ShopHandle): Outbox {
  const end = (id: number, data: { state: string; sentAt?: Date; failure: string }) =>
    shop.write(async (tx) => {
      await tx.mail.updateMany({ where: { id, state: "sending" }, data });
    });
  return {
    take: () =>
      shop.write(async (tx) => {
        const letter = await tx.mail.findFirst({
          where: { state: "waiting" },
          select: { id: true, to: true, subject: true, text: true },
          orderBy: { id: "asc" },
        });
        if (letter)
          await tx.mail.updateMany({
            where: { id: letter.id, state: "waiting" },
            data: { state: "sending" },
          });
        return letter;
      }),
    enclosed: (id) => enclosedWith(shop, id),
    sent: (id) => end(id, { state: "sent", sentAt: shop.now, failure: "" }),
    failed: (id, why) => end(id, { state: "failed", failure: why.slice(0, 300) }),
  };
}
