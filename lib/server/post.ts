import { outboxOf } from "@/lib/data/mail/outbox";
import { directory } from "@/lib/db/directory";
import { openShopNames } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { log } from "@/lib/log/log";
import { mailer } from "@/lib/outside/mail";
import { sendWaiting } from "@/lib/outside/mailOutbox";
import { printForLetter } from "@/lib/workers/letters";

const EVERY_MS = 20_000;

/** Sends waiting letters of the shops in use, round after round; nothing where no mail server is set up. */
export function startPost(): void {
  const mail = mailer();
  if (!mail) return;
  const round = async () => {
    const shops = await directory().read.shop.findMany({
      where: { database: { in: openShopNames() }, closedAt: null },
      select: { slug: true, database: true },
      orderBy: { id: "asc" },
    });
    for (const shop of shops) {
      const handle = handleFor(shop, SYSTEM, new Date());
      const waiting = await handle.read.mail.findFirst({
        where: { state: "waiting" },
        select: { id: true },
        orderBy: { id: "asc" },
      });
      if (waiting) await sendWaiting(outboxOf(handle), mail, (enclosed) => printForLetter(handle, enclosed));
    }
  };
  setInterval(() => {
    round().catch((cause: unknown) => log().error({ err: cause }, "Sending letters failed."));
  }, EVERY_MS).unref();
}
