import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { moneyText } from "@/lib/domain/money/format";
import { kitsOf, withKit } from "@/lib/domain/packages/optionKits";
import { Refusal } from "@/lib/domain/refusal";
import type { AddToJob, AnotherYes } from "@/lib/schemas/agreements";
import { YES_WORDS } from "@/lib/schemas/agreementWords";
import { demandKitIn } from "../kits/read";
import { amountTyped } from "../quotes/typedAmount";
import { agreeIn } from "./agree";
import type { ShortPart } from "./job";
import { offOf, saidWork } from "./openJob";

const JOB = {
  id: true,
  number: true,
  title: true,
  bikeId: true,
  version: true,
  state: true,
  agreement: {
    select: { kind: true, chargedBp: true, why: true, comebackOf: { select: { number: true } } },
  },
  yeses: { select: { saidBy: true, how: true, upToMinor: true }, orderBy: { id: "desc" }, take: 1 },
  revision: { select: { grossMinor: true } },
  variations: {
    where: { state: "accepted" },
    select: { grossMinor: true },
    orderBy: { id: "asc" },
    take: 100,
  },
} as const;

async function demandJob(tx: ShopTx, id: number) {
  const job = await tx.job.findUnique({ where: { id }, select: JOB });
  if (!job) throw new Refusal("There is no such job.", "Open it from the list of jobs.", {}, "missing");
  return job;
}

/**
 * Puts work or parts on a job that stands on no quote: inside what was agreed by word, on a comeback, on the shop's own bike. Answers
 * which parts are short. A job that stands on a quote takes more work by a variation.
 */
export async function addToJob(shop: ShopHandle, input: AddToJob): Promise<readonly ShortPart[]> {
  let short: readonly ShortPart[] = [];
  await shop.write((tx) =>
    once(tx, shop, "added to a job", input, async () => {
      const job = await demandJob(tx, input.jobId);
      const [yes] = job.yeses;
      const of = job.agreement?.comebackOf;
      if (!job.agreement)
        throw new Refusal(
          `Job ${job.number} stands on an accepted quote.`,
          "Quote more work as extra work: the customer agrees to it first.",
          {},
          "conflict",
        );
      const kit = input.kitId === undefined ? null : await demandKitIn(tx, input.kitId);
      const taken = kit ? withKit(input, kitsOf(kit, input.kitCount)) : { parts: input.parts };
      if (input.minutes === 0 && taken.parts.length === 0)
        throw new Refusal("This takes neither time nor parts.", "Enter minutes, or name a part.", {
          minutes: "Enter minutes, or name a part below.",
        });
      const agreed = [job.revision, ...job.variations].reduce((sum, one) => sum + one.grossMinor, 0);
      const settings = await tx.settings.findUniqueOrThrow({
        where: { id: 1 },
        select: { currency: true, locale: true },
      });
      const text = (minor: number) => moneyText(minor, settings.currency, settings.locale);
      const made = await agreeIn(
        tx,
        shop,
        {
          bikeId: job.bikeId,
          jobId: job.id,
          title: input.title,
          works: [saidWork({ ...input, ...taken })],
          discount: of ? offOf(job.agreement.chargedBp, job.agreement.why, of.number) : null,
          saidBy: yes?.saidBy ?? shop.by.name,
          agent: yes
            ? `added by ${shop.by.name}, inside the ${text(yes.upToMinor)} agreed ${YES_WORDS[yes.how]}`
            : `added by ${shop.by.name}`,
        },
        (more) => {
          if (!yes || agreed + more <= yes.upToMinor) return;
          throw new Refusal(
            `With this the job comes to ${text(agreed + more)}; ${yes.saidBy} agreed up to ${text(yes.upToMinor)}.`,
            "Ask for another yes and write it down, or quote it as extra work. Nothing was added.",
            {},
            "conflict",
          );
        },
      );
      short = made.short;
      await audit(tx, shop, "added to", "job", job.id, { number: job.number, title: input.title });
      return job.id;
    }),
  );
  return short;
}

/** Another yes by word, up to another amount: it holds from now on, the earlier ones stay written down. */
export async function anotherYes(shop: ShopHandle, input: AnotherYes): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "wrote down another yes", input, async () => {
      const job = await demandJob(tx, input.jobId);
      if (job.agreement?.kind !== "word")
        throw new Refusal(`Job ${job.number} is not agreed by word.`, "Quote more work as extra work.");
      const settings = await tx.settings.findUniqueOrThrow({
        where: { id: 1 },
        select: { currency: true, locale: true },
      });
      const upToMinor = amountTyped(input.upTo, settings, "upTo");
      await demandOne(
        tx.job.updateMany({
          where: { id: job.id, version: input.version, state: { notIn: ["closed", "cancelled"] } },
          data: { version: { increment: 1 } },
        }),
        () =>
          new Refusal(
            `Job ${job.number} has changed since you opened it.`,
            "Look at it again.",
            {},
            "conflict",
          ),
      );
      const { saidBy, how, note } = input;
      await tx.jobYes.create({
        data: { jobId: job.id, saidBy, how, upToMinor, note, at: shop.now, staffId: shop.by.staffId },
        select: { id: true },
      });
      await audit(tx, shop, "wrote down a yes for", "job", job.id, { number: job.number, upToMinor, how });
      return job.id;
    }),
  );
}
