import { directory } from "@/lib/db/directory";
import type { ShopHandle } from "@/lib/db/shop";
import { tokenHash } from "@/lib/db/token";
import { noteRequest } from "@/lib/log/request";
import { handleFor } from "./handle";
import { failedOpening } from "./openings";
import { orShut } from "./shut";

export interface OpenedFeed {
  readonly shop: ShopHandle;
  readonly shopName: string;
  /** Null: everybody's. */
  readonly staffId: number | null;
}

const SHAPE = /^[A-Za-z0-9_-]{27}$/;

/**
 * The private calendar of one of a shop's people, or of the whole shop, by its secret address: a calendar program has no session. A wrong
 * shop, a wrong address and a person who has left answer alike: null. What opens is not counted; what does not is, and
 * refused once it comes too often. "shut" where the shop cannot be opened.
 */
export async function openFeed(slug: string, token: string): Promise<OpenedFeed | "shut" | null> {
  const now = new Date();
  const opened = await find(slug, token, now);
  if (!opened) await failedOpening("calendar", now);
  return opened;
}

async function find(slug: string, token: string, now: Date): Promise<OpenedFeed | "shut" | null> {
  if (!SHAPE.test(token)) return null;
  const place = await directory().read.shop.findFirst({
    where: { slug, closedAt: null },
    select: { slug: true, name: true, database: true, server: true },
  });
  if (!place) return null;
  noteRequest({ shop: slug });
  const nobody = { personId: "calendar", name: "Calendar", role: "system" as const, staffId: null };
  const opened = await orShut(place, async () => {
    const shop = handleFor(place, nobody, now);
    const feed = await shop.read.calendarFeed.findUnique({
      where: { tokenHash: tokenHash(token) },
      select: { staffId: true, staff: { select: { active: true } } },
    });
    const whole =
      feed === null &&
      (await shop.read.shopCalendar.findUnique({
        where: { tokenHash: tokenHash(token) },
        select: { id: true },
      }));
    return { shop, feed, whole };
  });
  if (opened === "shut") return "shut";
  const { shop, feed, whole } = opened;
  if (whole) return { shop, shopName: place.name, staffId: null };
  if (!feed?.staff.active) return null;
  return { shop, shopName: place.name, staffId: feed.staffId };
}
