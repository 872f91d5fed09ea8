import { directory } from "@/lib/db/directory";
import { postgresUrl } from "@/lib/db/folders";
import { shut } from "@/lib/db/shop";
import { faultOf, ShopShut, schemaIsGone } from "@/lib/db/shopFaults";

interface Place {
  readonly slug: string;
  readonly database: string;
}

/** Runs what first asks a shop's database; "shut" where that shows that the shop cannot be opened. Other failures go on. */
export async function orShut<T>(place: Place, run: () => Promise<T>): Promise<T | "shut"> {
  try {
    return await run();
  } catch (cause) {
    if (await isShutNow(place, cause)) return "shut";
    throw cause;
  }
}

/** Whether a failure in a shop came of its database: that is then shut, or was by whoever met it first. */
async function isShutNow(place: Place, cause: unknown): Promise<boolean> {
  if (cause instanceof ShopShut || faultOf(place.database)) return true;
  const url = postgresUrl();
  if (!url || !(await schemaIsGone(url, place.database, cause))) return false;
  shut({ ...place, place: `schema ${place.database}`, reason: "Its schema is missing.", lasting: false });
  return true;
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
