import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { weekdayNames } from "@/lib/schemas/wishes";
import { customerLocale } from "@/lib/words/language";
import { type Said, wordsIn } from "@/lib/words/words";
import { bikeName } from "../bikes/bikeName";
import { type Reach, reachOf } from "../bookings/reach";
import { linkIn } from "./links";

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
      customer: { select: { name: true, email: true, language: true } },
      bike: { select: { year: true, plate: true, modelCard: { select: { make: true, model: true } } } },
    },
  });
  if (!job) throw new Refusal("There is no such job.", "Open it from the list of jobs.", {}, "missing");
  if (job.state !== "ready" && job.state !== "invoiced")
    throw new Refusal(`The work on job ${job.number} is not finished.`, "Finish it first.", {}, "conflict");
  const { customer } = job;
  if (!customer.email)
    throw new Refusal(
      "This customer has no mail address.",
      "Enter it on the customer's page, or hand over the link.",
    );
  const { locale } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { locale: true } });
  const spoken = customerLocale(locale, customer.language);
  const say = wordsIn(spoken);
  const reach = await reachOf({ read: tx });
  const { path } = await linkIn(tx, shop, "job", { jobId });
  const bike = bikeName(job.bike);
  const text = [
    say("mails.hello", { name: customer.name }),
    "",
    say("mails.ready", { bike, title: job.title }),
    say("mails.readyPage"),
    `${origin}${path}`,
    "",
    ...hoursSaid(reach, say, spoken),
    reach.phone ? say("mails.readyCall", { phone: reach.phone }) : say("mails.readyAnswer"),
    "",
    reach.name,
    reach.address,
  ];
  const mail = await tx.mail.create({
    data: {
      to: customer.email,
      subject: say("mails.readySubject", { bike, shop: reach.name }),
      text: text.join("\n").trim(),
      createdAt: shop.now,
    },
    select: { id: true },
  });
  await audit(tx, shop, "wrote", "mail", mail.id, { job: job.number });
  return mail.id;
}

/** When somebody is there, a line for each day that has hours; nothing where none are known. */
function hoursSaid({ hours }: Reach, say: Said, locale: string): string[] {
  const names = weekdayNames(locale);
  const days = hours
    .filter((day) => day.spans.length > 0)
    .map(
      ({ weekday, spans }) =>
        `  ${names[weekday - 1]?.name}: ${spans.map((span) => say("links.between", span)).join(", ")}`,
    );
  return days.length > 0 ? [`${say("links.hours")}:`, ...days, ""] : [];
}
