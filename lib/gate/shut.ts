import { directory } from "@/lib/db/directory";
import { serverFault, whileUsable } from "@/lib/db/serverFaults";
import { addressOf, type ShopPlace, schemaSaid } from "@/lib/db/servers";
import { shut, shutFor } from "@/lib/db/shop";
import { faultOf, ShopShut, schemaIsGone } from "@/lib/db/shopFaults";

/** Runs what first asks a shop's database; "shut" where that shows that the shop cannot be opened. Other failures go on. */
export async function orShut<T>(place: ShopPlace, run: () => Promise<T>): Promise<T | "shut"> {
  try {
    // DATABASE_URL's own server was asked for the shop just now.
    return place.server === "" ? await run() : await orAway(place, run);
  } catch (cause) {
    if (await isShutNow(place, cause)) return "shut";
    throw cause;
  }
}

/** Whether a failure in a shop came of its database: that is then shut, or was by whoever met it first. */
async function isShutNow(place: ShopPlace, cause: unknown): Promise<boolean> {
  const { slug, database, server } = place;
  if (cause instanceof ShopShut || faultOf(database)) return true;
  if (await isAway(place, true)) return true;
  const url = addressOf(server)?.direct;
  if (!url || !(await schemaIsGone(url, database, cause))) return false;
  shut({ slug, database, place: schemaSaid(place), reason: "Its schema is missing.", lasting: false });
  return true;
}

/** A server that has gone, before or while it is asked, shuts the shop instead of keeping whoever asks. */
async function orAway<T>(place: ShopPlace, run: () => Promise<T>): Promise<T | "shut"> {
  if (await isAway(place, false)) return "shut";
  const ended = await whileUsable(place.server, run);
  if ("answer" in ended) return ended.answer;
  shutFor(place, ended.fault);
  return "shut";
}

/** Whether a shop's server is not to be used now: the shop is then shut, instead of whoever asks waiting for it. */
async function isAway(place: ShopPlace, afresh: boolean): Promise<boolean> {
  const fault = await serverFault(place.server, afresh);
  if (fault) shutFor(place, fault);
  return fault !== null;
}

/** Why a shop of this person is shut, in a sentence. Whoever asks has been found to belong to it. */
export async function whyShut(slug: string): Promise<string> {
  const place = await directory().read.shop.findUnique({ where: { slug }, select: { database: true } });
  return (place && faultOf(place.database)?.reason) ?? "";
}

/** What a file's address answers where its shop cannot be opened: to be asked for again, unlike what is not there. */
export function shutAnswer(): Response {
  const { message } = new ShopShut();
  return new Response(message, {
    status: 503,
    headers: {
      "Content-Type": "text/plain; charset=utf-8",
      "Cache-Control": "no-store",
      "Retry-After": "600",
    },
  });
}
