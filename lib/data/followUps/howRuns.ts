import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { LetterValues } from "@/lib/domain/letters/kinds";
import { mailTimeFrom } from "@/lib/domain/schedule/reminder";
import { RUN_ANSWERS } from "@/lib/domain/tuning/runAnswers";
import { customerLocale } from "@/lib/words/language";
import { wordsIn } from "@/lib/words/words";
import { bikeName } from "../bikes/bikeName";
import { linkIn } from "../mail/customerLinks";
import { letterChoice, wasWritten, writeLetterIn } from "../mail/letters";

/** So much in one round; what is left waits for the next. */
const MOST = 50;
/** Whose work was finished longer ago than this after the day is not asked any more (judgement, in days). */
const TOO_LATE = 14;
const DAY_MS = 86_400_000;

export const ASKED = {
  title: true,
  customer: { select: { name: true, email: true, noLetters: true, language: true } },
  bike: { select: { year: true, plate: true, modelCard: { select: { make: true, model: true } } } },
} as const;

interface Asked {
  readonly title: string;
  readonly customer: { readonly name: string };
  readonly bike: Parameters<typeof bikeName>[0];
}

/**
 * What the letter says that asks how a bike runs. Each answer is an address that opens the page with it chosen; the page alone
 * sends it, since programs that look through mail open every address.
 */
export function howRunsValues(
  { title, customer, bike }: Asked,
  page: string,
  locale: string,
): LetterValues<"howRuns"> {
  const say = wordsIn(locale);
  return {
    name: customer.name,
    bike: bikeName(bike),
    title,
    answers: RUN_ANSWERS.map((one) => `${say(`runsPage.${one}`)}: ${page}/runs?answer=${one}`).join("\n"),
  };
}

/**
 * Asks how bikes run some days after their work was finished, where the shop wants that: once for each job, and not of the
 * shop's own bikes. Safe to repeat and to run in several processes at once.
 */
export async function howRunsRound(shop: ShopHandle, origin: string): Promise<number> {
  const { on, days } = await letterChoice(shop.read, "howRuns");
  if (!on || days === null) return 0;
  const at = (back: number) => new Date(shop.now.getTime() - back * DAY_MS);
  const rows = await shop.read.job.findMany({
    where: {
      state: { in: ["invoiced", "closed"] },
      finishedAt: { lte: at(days), gte: at(days + TOO_LATE) },
      customer: { email: { not: "" }, noLetters: false },
      NOT: { agreement: { kind: "ownBike" } },
    },
    select: { id: true },
    orderBy: { id: "asc" },
    take: MOST * 4,
  });
  let asked = 0;
  for (const { id } of rows) {
    if (asked >= MOST) break;
    asked += await shop.write((tx) => askIn(tx, shop, id, origin));
  }
  return asked;
}

/** When the next job has been finished for so many days; null where none will be, or the shop does not ask. `asked`: by the round. */
export async function nextHowRuns(shop: ShopHandle, zone: string, asked: number): Promise<Date | null> {
  const { on, days } = await letterChoice(shop.read, "howRuns");
  if (!on || days === null) return null;
  if (asked >= MOST) return shop.now;
  const next = await shop.read.job.findFirst({
    where: {
      state: { in: ["invoiced", "closed"] },
      finishedAt: { gt: new Date(shop.now.getTime() - days * DAY_MS) },
    },
    select: { finishedAt: true },
    orderBy: { finishedAt: "asc" },
  });
  if (!next?.finishedAt) return null;
  return new Date(mailTimeFrom(next.finishedAt.getTime() + days * DAY_MS, zone));
}

async function askIn(tx: ShopTx, shop: ShopHandle, jobId: number, origin: string): Promise<number> {
  const about = { noun: "job", nounId: jobId } as const;
  if (await wasWritten(tx, "howRuns", about)) return 0;
  return once(tx, shop, "asked how a bike runs", { key: `how-runs-${jobId}`, jobId }, async () => {
    const job = await tx.job.findUniqueOrThrow({ where: { id: jobId }, select: ASKED });
    const { locale } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { locale: true } });
    const spoken = customerLocale(locale, job.customer.language);
    const { path } = await linkIn(tx, shop, "job", { jobId });
    const written = await writeLetterIn(tx, shop, {
      kind: "howRuns",
      to: job.customer,
      locale: spoken,
      values: howRunsValues(job, `${origin}${path}`, spoken),
      about,
    });
    return "mailId" in written ? 1 : 0;
  });
}
