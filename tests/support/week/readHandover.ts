import type { ShopHandle } from "@/lib/db/shop";
import type { QuoteText, RecipeRow } from "./readQuote";
import { localDay } from "./readSheets";
import { Differences, total } from "./sums";

/** What goes home with a bike, as its paper is made from. */
export interface HandoverText {
  readonly job: { readonly number: string; readonly title: string };
  readonly customer: string;
  readonly plate: string;
  readonly odometerKm: number | null;
  readonly day: string;
  readonly work: readonly string[];
  readonly fitted: readonly { readonly code: string; readonly quantityMilli: number }[];
  readonly asLeft: readonly {
    readonly carburettor: number;
    readonly setting: string;
    readonly value: number;
  }[];
  readonly cautions: readonly string[];
}

/** Whether a handover sheet says what was done, fitted and left, and warns of all that was agreed. */
export async function readHandover(
  shop: ShopHandle,
  jobId: number,
  paper: HandoverText,
  odometerKm: number | null,
): Promise<string[]> {
  const job = await shop.read.job.findUniqueOrThrow({
    where: { id: jobId },
    include: {
      customer: true,
      bike: true,
      steps: { where: { kind: "operation", state: "done" }, orderBy: { position: "asc" } },
      moves: {
        where: { kind: { in: ["use", "returnToStock"] } },
        include: { part: true },
        orderBy: { id: "asc" },
      },
    },
  });
  const agreed = await shop.read.quoteRevision.findMany({
    where: { OR: [{ job: { id: jobId } }, { quote: { variationOfId: jobId }, acceptance: { isNot: null } }] },
    include: { works: { include: { packageRevision: true } } },
    orderBy: { id: "asc" },
  });
  const left = await shop.read.settingSheet.findFirst({
    where: { jobId, kind: "asLeft" },
    include: { values: true },
    orderBy: { id: "desc" },
  });
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  const diff = new Differences(`Handover of job ${job.number}`);
  const { number, title, customer, bike, finishedAt } = job;
  diff.same(
    "its head",
    [paper.job.number, paper.job.title, paper.customer, paper.plate, paper.day],
    [number, title, customer.name, bike?.plate, localDay(finishedAt, zone)],
  );
  diff.same("the odometer", paper.odometerKm, odometerKm ?? job.odometerKm);
  diff.same(
    "the work",
    paper.work,
    job.steps.map((step) => step.name),
  );
  const fitted = [...Map.groupBy(job.moves, (move) => move.part.code)].flatMap(([code, moves]) => {
    const milli = -total(moves.map((move) => BigInt(move.quantityMilli)));
    return milli > 0n ? [[code, Number(milli)]] : [];
  });
  diff.same(
    "what was fitted",
    paper.fitted.map((one) => [one.code, one.quantityMilli]),
    fitted,
  );
  const plain = (values: HandoverText["asLeft"]) =>
    values.map((one) => `${one.carburettor} ${one.setting} ${one.value}`).toSorted();
  diff.same("what was left", plain(paper.asLeft), plain(left?.values ?? []));
  const cautions = agreed.flatMap((revision) => {
    const chosen = (revision.frozen as unknown as QuoteText).options.map((option) => option.key);
    const recipe = revision.works[0]?.packageRevision?.recipe as unknown as RecipeRow;
    return recipe.options
      .filter((option) => chosen.includes(option.key))
      .flatMap((option) => option.cautions);
  });
  diff.same("its cautions", [...new Set(paper.cautions)].toSorted(), [...new Set(cautions)].toSorted());
  return diff.found;
}
