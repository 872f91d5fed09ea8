import { handoverPaper } from "@/app/_documents/handoverPaper";
import { jobOfLink } from "@/lib/data/papers/ofJob";
import { linkFile } from "@/lib/gate/linkFile";
import { inWorker } from "@/lib/workers/pool";

/** What goes home with the bike, once the work is finished. */
export const GET = linkFile(async ({ shop, ...link }, { signal }) => {
  const jobId = await jobOfLink(shop, link);
  const paper = jobId === null ? null : await handoverPaper(shop, jobId);
  if (!paper?.finished) return null;
  const body = await inWorker(shop, "handoverPdf", paper, { signal });
  return { body, type: "application/pdf", name: `handover-${paper.job.number}.pdf` };
});
