import type { ShopHandle } from "@/lib/db/shop";
import { RUN_ANSWERS } from "@/lib/domain/tuning/runAnswers";
import { bikeName } from "../bikes/bikeName";

/** What a customer is asked about, and what they answered last; null while the work is not finished. */
export async function askedRuns({ read }: Pick<ShopHandle, "read">, jobId: number) {
  const job = await read.job.findFirst({
    where: { id: jobId, finishedAt: { not: null }, state: { not: "cancelled" } },
    select: {
      title: true,
      bike: { select: { year: true, plate: true, modelCard: { select: { make: true, model: true } } } },
      runAnswers: { select: { id: true, answer: true, at: true }, orderBy: { id: "desc" }, take: 1 },
    },
    orderBy: { id: "asc" },
  });
  if (!job) return null;
  const { zone } = await read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const [last] = job.runAnswers;
  return {
    title: job.title,
    bike: bikeName(job.bike),
    zone,
    last: last ? { ...last, answer: RUN_ANSWERS.find((one) => one === last.answer) ?? "other" } : null,
  };
}
