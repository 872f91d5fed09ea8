import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { QuoteTerms } from "@/lib/domain/quoting/terms";
import { Refusal } from "@/lib/domain/refusal";
import { type OpenJob, shareOf } from "@/lib/schemas/agreements";
import { AGREEMENT_WORDS, YES_WORDS } from "@/lib/schemas/agreementWords";
import { keptWork } from "@/lib/schemas/works";
import { amountTyped } from "../quotes/typedAmount";
import type { NewRow } from "../quotes/works";
import { agreeIn } from "./agree";

/** A work as it is said on the phone: what, and how long it may take. */
export function saidWork(said: {
  title: string;
  plain?: string;
  minutes: number;
  grade: string;
  parts?: readonly object[];
  kits?: readonly object[];
}): NewRow {
  const { title, plain = "", minutes, grade, parts = [], kits } = said;
  if (minutes > 0 && grade === "")
    throw new Refusal("Minutes need a grade.", "Choose one.", { grade: "Choose a grade." });
  const data = keptWork({
    name: title,
    plain,
    steps: minutes > 0 ? [{ name: "", minutes, grade }] : [],
    parts,
    outside: [],
    accesses: [],
    holdPoints: [],
    changes: [],
    cautions: [],
    ...(kits ? { kits } : {}),
  });
  return { key: "", kind: "written", packageRevisionId: null, data };
}

/**
 * Opens a job on a bike without a quote: agreed by word up to an amount, as a comeback of an earlier job, or on the shop's own bike.
 * Answers the job's id.
 */
export async function openJob(shop: ShopHandle, input: OpenJob): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "opened a job", input, async () => {
      const settings = await tx.settings.findUniqueOrThrow({
        where: { id: 1 },
        select: { currency: true, locale: true, name: true },
      });
      const { kind, bikeId, title, how } = input;
      const upToMinor = kind === "word" ? amountTyped(input.upTo, settings, "upTo") : null;
      const chargedBp = chargedOf(input);
      const of = kind === "comeback" ? await demandEarlier(tx, input) : null;
      const made = await agreeIn(
        tx,
        shop,
        {
          bikeId,
          jobId: null,
          title,
          works: [saidWork(input)],
          discount: of ? offOf(chargedBp, input.why, of.number) : null,
          saidBy: input.saidBy || (kind === "ownBike" ? settings.name : shop.by.name),
          agent: `told to ${shop.by.name}: ${kind === "word" ? YES_WORDS[how] : AGREEMENT_WORDS[kind]}`,
        },
        () => {},
      );
      const { jobId, jobNumber } = made;
      const why = kind === "comeback" ? input.why : "";
      await tx.jobAgreement.create({
        data: { jobId, kind, comebackOfId: of?.id ?? null, chargedBp, why },
        select: { jobId: true },
      });
      if (upToMinor !== null)
        await tx.jobYes.create({
          data: { jobId, saidBy: input.saidBy, how, upToMinor, at: shop.now, staffId: shop.by.staffId },
          select: { id: true },
        });
      await audit(tx, shop, "opened", "job", jobId, {
        number: jobNumber,
        agreement: kind,
        ...(upToMinor === null ? {} : { upToMinor }),
        ...(of ? { comebackOf: of.number, chargedBp, why } : {}),
      });
      return jobId;
    }),
  );
}

function chargedOf({ kind, charged, percent }: OpenJob): number {
  if (kind === "word") return 10_000;
  if (kind === "ownBike" || charged === "nothing") return 0;
  return charged === "full" ? 10_000 : (shareOf(percent) ?? 0);
}

/** What a comeback is not charged, as a discount that its invoice prints; none where all is. */
export function offOf(chargedBp: number, why: string, number: string): QuoteTerms["discount"] {
  if (chargedBp === 10_000) return null;
  return { kind: "percent", bp: 10_000 - chargedBp, why: `Comeback of job ${number}: ${why}`.slice(0, 120) };
}

async function demandEarlier(tx: ShopTx, { bikeId, comebackOfId }: OpenJob) {
  const job = await tx.job.findUnique({
    where: { id: comebackOfId ?? 0 },
    select: { id: true, number: true, bikeId: true, finishedAt: true },
  });
  if (job?.bikeId === bikeId && job.finishedAt) return job;
  throw new Refusal(
    "That job is not one that was finished on this bike.",
    "Choose the job the bike comes back from.",
    { comebackOfId: "Choose a finished job of this bike." },
  );
}
