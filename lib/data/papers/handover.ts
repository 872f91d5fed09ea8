import type { ShopHandle } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import { handedReadings } from "@/lib/domain/sheets/handedOver";
import { computedAt, diameterAt, stationsBeside } from "@/lib/domain/tuning/needleRecord";
import { customerLocale } from "@/lib/words/language";
import { bikeName } from "../bikes/bikeName";
import { storedQuote } from "../documents/quote";
import { cardReadings } from "../jobs/cardReadings";
import { partsOfJob } from "../jobs/madeParts";
import { type JobNeedle, needlesOfJob } from "../jobs/needles";
import { sheetsOfJob } from "../jobs/sheets";
import { senderIn } from "../shop/sender";
import { handedOver } from "./handedOver";

/** What goes home with a bike: work done, readings, settings before and after, parts fitted; null where there is no such job. */
export async function handoverForPaper(shop: ShopHandle, jobId: number) {
  const job = await shop.read.job.findUnique({
    where: { id: jobId },
    select: {
      id: true,
      number: true,
      title: true,
      bikeId: true,
      odometerKm: true,
      finishedAt: true,
      customer: { select: { name: true, language: true } },
      bike: { select: { year: true, plate: true, modelCard: { select: { make: true, model: true } } } },
      revision: { select: { frozen: true } },
      variations: {
        where: { state: "accepted" },
        select: {
          revisions: {
            where: { acceptance: { isNot: null } },
            select: { frozen: true },
            orderBy: { number: "desc" },
            take: 1,
          },
        },
        orderBy: { id: "asc" },
        take: 50,
      },
      steps: {
        where: { kind: "operation", state: "done" },
        select: { name: true },
        orderBy: { position: "asc" },
        take: 300,
      },
      moves: {
        where: { kind: { in: ["use", "returnToStock"] } },
        select: { quantityMilli: true, part: { select: { code: true, name: true, unit: true } } },
        orderBy: { id: "asc" },
        take: 1000,
      },
    },
  });
  if (!job) return null;
  const settings = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { locale: true, zone: true },
  });
  const [sheets, read, jobNeedles, described] = await Promise.all([
    sheetsOfJob(shop.read, { id: job.id, bikeId: job.bikeId }),
    cardReadings(shop.read, job.id),
    needlesOfJob(shop.read, { id: job.id, bikeId: job.bikeId }),
    partsOfJob(shop.read, { id: job.id, bikeId: job.bikeId }),
  ]);
  const needles = needlesOnPaper(jobNeedles);
  const { checks, toPay, signed } = (await handedOver(shop, job.id)) ?? NOTHING;
  return {
    job: { number: job.number, title: job.title },
    customer: job.customer.name,
    bike: bikeName(job.bike),
    plate: job.bike.plate,
    odometerKm: sheets.asLeft?.odometerKm ?? job.odometerKm,
    day: dayIn(settings.zone, job.finishedAt ?? shop.now),
    finished: job.finishedAt !== null,
    work: job.steps.map((step) => step.name),
    ...handedReadings(read, sheets.asLeft?.values ?? [], needles),
    asFound: sheets.asFound?.values ?? [],
    asLeft: sheets.asLeft?.values ?? [],
    needles,
    described: described.flatMap(({ carburettor, kind, found, left }) =>
      left ? [{ carburettor, kind, found: found?.part ?? null, left: left.part, how: left.how }] : [],
    ),
    fitted: fittedOf(job.moves),
    cautions: cautionsOf([job.revision, ...job.variations.flatMap((variation) => variation.revisions)]),
    checks,
    toPay,
    signed,
    /** The shop as the paper names it, in the customer's language. */
    shop: {
      ...(await senderIn(shop.read)),
      locale: customerLocale(settings.locale, job.customer.language),
      zone: settings.zone,
    },
  };
}

const NOTHING = { checks: [], toPay: { currency: "", rows: [], leftMinor: 0 }, signed: null };

/** What was said of the job's quote and of its variations, each once. */
function cautionsOf(agreed: readonly { frozen: unknown }[]): string[] {
  const quotes = agreed.flatMap(({ frozen }) => (frozen === null ? [] : [storedQuote(frozen)]));
  return [...new Set(quotes.flatMap((quote) => quote.cautions))];
}

function fittedOf(
  moves: readonly { quantityMilli: number; part: { code: string; name: string; unit: string } }[],
) {
  return [...Map.groupBy(moves, (move) => move.part.code).values()].flatMap((own) => {
    const quantityMilli = own.reduce((sum, move) => sum - move.quantityMilli, 0);
    return own[0] && quantityMilli > 0 ? [{ ...own[0].part, quantityMilli }] : [];
  });
}

/** A needle that was written down, at the stations that were measured: as found and as left. */
export function needlesOnPaper(needles: readonly JobNeedle[]) {
  return needles.flatMap(({ carburettor, found, fitted }) =>
    fitted
      ? stationsBeside([...(found ? [found.record] : []), fitted.record]).map((atMm) => ({
          carburettor,
          atMm,
          found: found && diameterAt(found.record, atMm),
          left: diameterAt(fitted.record, atMm),
          how: computedAt(fitted.record, atMm) ? "computed" : fitted.how,
        }))
      : [],
  );
}
