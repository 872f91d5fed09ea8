import { jobProgress } from "@/lib/data/papers/progress";
import { calendarText } from "@/lib/documents/calendar";
import { visitOf } from "@/lib/domain/schedule/visit";
import { openLink } from "@/lib/gate/customer";
import { file } from "@/lib/gate/route";
import { shutAnswer } from "@/lib/gate/shut";

/** When a customer's bike is in the shop, for their calendar. A link that is not for a job, or does not open, has none. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ shop: string; token: string }> },
): Promise<Response> {
  const { shop: slug, token } = await params;
  const link = await openLink(slug, token);
  if (link === "shut") return shutAnswer();
  const job =
    typeof link === "string" || link.jobId === null ? null : await jobProgress(link.shop, link.jobId);
  if (!job || typeof link === "string")
    return new Response("Not found.", { status: 404, headers: { "Cache-Control": "no-store" } });
  const text = calendarText({
    name: job.shop.name,
    now: link.shop.now,
    entries: job.bookings.map((booking) => visitOf(booking, { slug, bike: job.bike, job, place: job.shop })),
  });
  const response = file(text, "text/calendar; charset=utf-8", `job-${job.number}.ics`);
  response.headers.set("Cache-Control", "private, no-store");
  response.headers.set("Referrer-Policy", "same-origin");
  return response;
}
