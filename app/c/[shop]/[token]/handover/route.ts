import { handoverForPaper } from "@/lib/data/papers/handover";
import { jobOfLink } from "@/lib/data/papers/ofJob";
import { dayText, numberText } from "@/lib/documents/format";
import { linkFile } from "@/lib/gate/linkFile";
import { inWorker } from "@/lib/workers/pool";

/** What goes home with the bike, once the work is finished. */
export const GET = linkFile(async (link, { signal }) => {
  const { shop, locale } = link;
  const jobId = await jobOfLink(shop, link);
  const paper = jobId === null ? null : await handoverForPaper(shop, jobId);
  if (!paper?.finished) return null;
  const { name, legalName, phone, country } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { name: true, legalName: true, phone: true, country: true },
  });
  const { followUp } = paper;
  const km = followUp?.dueKm ? [`${numberText(followUp.dueKm, locale)} km`] : [];
  const handover = {
    ...paper,
    dayText: dayText(paper.day, locale),
    next: followUp ? [dayText(followUp.dueOn, locale), ...km].join(" / ") : "",
    shop: { name: legalName || name, phone, locale, country },
  };
  const body = await inWorker(shop, "handoverPdf", handover, { signal });
  return { body, type: "application/pdf", name: `handover-${paper.job.number}.pdf` };
});
