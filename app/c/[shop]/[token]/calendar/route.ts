import { jobOfLink } from "@/lib/data/papers/ofJob";
import { jobProgress } from "@/lib/data/papers/progress";
import { calendarText } from "@/lib/documents/calendar";
import { visitOf } from "@/lib/domain/schedule/visit";
import { linkFile } from "@/lib/gate/linkFile";
import { languageOf } from "@/lib/words/language";
import { visitWords } from "@/lib/words/visit";

/** When a customer's bike is in the shop, for their calendar. A link that leads to no job has none. */
export const GET = linkFile(async (link) => {
  const { shop, locale } = link;
  const jobId = await jobOfLink(shop, link);
  const job = jobId === null ? null : await jobProgress(shop, jobId);
  if (!job) return null;
  const around = { slug: shop.slug, bike: job.bike, job, place: job.shop, said: visitWords(locale) };
  const body = calendarText({
    name: job.shop.name,
    language: languageOf(locale),
    now: shop.now,
    entries: job.bookings.map((booking) => visitOf(booking, around)),
  });
  return { body, type: "text/calendar; charset=utf-8", name: `job-${job.number}.ics` };
});
