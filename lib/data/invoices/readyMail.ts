import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { weekdayNames } from "@/lib/schemas/wishes";
import { customerLocale } from "@/lib/words/language";
import { wordsIn } from "@/lib/words/words";
import { bikeName } from "../bikes/bikeName";
import { type Reach, reachOf } from "../bookings/reach";
import { linkIn } from "../mail/customerLinks";
import { demandWritten, writeLetterIn } from "../mail/letters";

interface Asked {
  readonly jobId: number;
  /** The product's address. */
  readonly origin: string;
  readonly key?: string | undefined;
}

/** Writes the customer that their bike can be fetched, with the hours and a link to the job's page, into the mail queue. */
export async function mailReady(shop: ShopHandle, input: Asked): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "said that a bike is ready", input, () => writeIn(tx, shop, input)),
  );
}

async function writeIn(tx: ShopTx, shop: ShopHandle, { jobId, origin }: Asked): Promise<number> {
  const job = await tx.job.findUnique({
    where: { id: jobId },
    select: {
      number: true,
      title: true,
      state: true,
      customer: { select: { name: true, phone: true, email: true, language: true, noLetters: true } },
      bike: { select: { year: true, plate: true, modelCard: { select: { make: true, model: true } } } },
    },
  });
  if (!job) throw new Refusal("There is no such job.", "Open it from the list of jobs.", {}, "missing");
  if (job.state !== "ready" && job.state !== "invoiced")
    throw new Refusal(`The work on job ${job.number} is not finished.`, "Finish it first.", {}, "conflict");
  const { customer } = job;
  const { locale } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { locale: true } });
  const spoken = customerLocale(locale, customer.language);
  const { path } = await linkIn(tx, shop, "job", { jobId });
  const written = await writeLetterIn(tx, shop, {
    kind: "ready",
    to: customer,
    locale: spoken,
    values: {
      name: customer.name,
      bike: bikeName(job.bike),
      title: job.title,
      hours: hoursSaid(await reachOf({ read: tx }, spoken), spoken),
      link: `${origin}${path}`,
    },
    about: { noun: "job", nounId: jobId },
  });
  return demandWritten(written, customer);
}

/** When somebody is there, a line for each day that has hours; nothing where none are known. */
export function hoursSaid({ hours }: Reach, locale: string): string {
  const say = wordsIn(locale);
  const names = weekdayNames(locale);
  const days = hours
    .filter((day) => day.spans.length > 0)
    .map(
      ({ weekday, spans }) =>
        `  ${names[weekday - 1]?.name}: ${spans.map((span) => say("links.between", span)).join(", ")}`,
    );
  return days.length > 0 ? [`${say("links.hours")}:`, ...days].join("\n") : "";
}
