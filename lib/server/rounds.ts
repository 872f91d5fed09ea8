import { quoteRound, type Round } from "@/lib/data/quotes/rounds";
import { directory } from "@/lib/db/directory";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { publicUrl } from "@/lib/gate/origin";
import { log, logged } from "@/lib/log/log";

const EVERY_MS = 15 * 60_000;
const FIRST_MS = 60_000;
const PAGE = 200;

/** One round through every shop: what runs out, what is to be reminded of. A shop that fails is told of and the next is looked at. */
export async function goRound(now: Date): Promise<Round & { shops: number; failed: number }> {
  const { origin } = publicUrl();
  const sum = { shops: 0, failed: 0, expired: 0, reminded: 0 };
  let after = "";
  for (;;) {
    const shops = await directory().read.shop.findMany({
      where: { closedAt: null, id: { gt: after } },
      select: { id: true, slug: true, database: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const shop of shops) {
      sum.shops += 1;
      try {
        const { expired, reminded } = await logged("round", { shop: shop.slug }, async () =>
          quoteRound(handleFor(shop, SYSTEM, now), origin),
        );
        sum.expired += expired;
        sum.reminded += reminded;
      } catch {
        // Its line in the log says why.
        sum.failed += 1;
      }
    }
    const last = shops.at(-1);
    if (!last || shops.length < PAGE) return sum;
    after = last.id;
  }
}

/** Rounds for as long as the server runs: soon after the start, then every quarter of an hour, one at a time. */
export function startRounds(): void {
  let going = false;
  const go = () => {
    if (going) return;
    going = true;
    goRound(new Date())
      .catch((cause: unknown) => log().error({ err: cause }, "The round through the shops failed."))
      .finally(() => {
        going = false;
      });
  };
  setTimeout(go, FIRST_MS).unref();
  setInterval(go, EVERY_MS).unref();
}
