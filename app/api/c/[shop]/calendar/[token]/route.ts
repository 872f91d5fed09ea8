import { type FedBooking, fedBookings } from "@/lib/data/bookings/feed";
import { calendarText } from "@/lib/documents/calendar";
import { openFeed } from "@/lib/gate/feed";
import { publicUrl } from "@/lib/gate/origin";
import { answered, file } from "@/lib/gate/route";
import { shutAnswer } from "@/lib/gate/shut";

/** The bookings of one person, or of the whole shop, for a calendar program to follow. */
export function GET(
  _request: Request,
  { params }: { params: Promise<{ shop: string; token: string }> },
): Promise<Response> {
  return answered(async () => calendar(await params));
}

async function calendar({ shop: slug, token }: { shop: string; token: string }): Promise<Response> {
  const feed = await openFeed(slug, token.replace(/\.ics$/, ""));
  if (feed === "shut") return shutAnswer();
  if (!feed) return new Response("Not found.", { status: 404, headers: { "Cache-Control": "no-store" } });
  const bookings = await fedBookings(feed.shop, feed.staffId);
  const text = calendarText({
    name: `${feed.shopName}: bookings`,
    now: feed.shop.now,
    entries: bookings.map((booking) => entryOf(booking, slug, feed.staffId === null)),
  });
  const response = file(text, "text/calendar; charset=utf-8", "bookings.ics", true);
  response.headers.set("Cache-Control", "private, no-store");
  return response;
}

function entryOf(
  { id, version, jobId, of, bay, staff, ...booking }: FedBooking,
  slug: string,
  whole: boolean,
) {
  return {
    uid: `booking-${id}@${slug}`,
    sequence: version,
    startsAt: booking.startsAt,
    endsAt: booking.endsAt,
    summary: `${of.name}: ${of.bike}, ${of.title}`,
    location: whole ? `${bay.name}, ${staff.name}` : bay.name,
    description: [of.plate, ...(jobId === null ? [of.customer, of.phone] : []), booking.note]
      .filter(Boolean)
      .join("\n"),
    url: `${publicUrl().origin}/s/${slug}/${jobId === null ? `bookings/${id}` : `jobs/${jobId}`}`,
    cancelled: booking.state === "cancelled",
  };
}
