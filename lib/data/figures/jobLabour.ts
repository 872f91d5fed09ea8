import type { ShopHandle } from "@/lib/db/shop";
import {
  type Billed,
  type Reckoned,
  reckon,
  summed,
  summedBy,
  type WorkCell,
} from "@/lib/domain/labour/reckoned";
import { atGrades } from "@/lib/domain/labour/sideBySide";
import { storedInvoice } from "../documents/invoice";
import { keyIn } from "../jobs/different";
import { staffNames } from "../jobs/people";
import { ENTRY, entryOf } from "../jobs/time/overrun";
import { storedRecipe } from "../packages/stored";

const PACKAGES = {
  select: {
    key: true,
    packageRevision: { select: { recipe: true, package: { select: { id: true, name: true } } } },
  },
  where: { kind: "package" },
  orderBy: { position: "asc" },
  take: 40,
} as const;
const ISSUED = { kind: "invoice", state: "issued", takenBack: false } as const;
const CREDITS = { select: { frozen: true }, orderBy: { id: "asc" }, take: 100 } as const;

/** A row of planned, spent and billed: of what, and where it leads. */
export interface LabourRow extends Reckoned {
  readonly key: string;
  readonly name: string;
  readonly packageId?: number;
}

/** Planned, spent and billed labour of a job by step, operation, person and package; null where there is no such job. */
export async function jobLabour(shop: ShopHandle, jobId: number) {
  const job = await shop.read.job.findUnique({
    where: { id: jobId },
    select: {
      id: true,
      number: true,
      title: true,
      rides: { select: { id: true }, orderBy: { id: "asc" }, take: 500 },
      steps: {
        select: {
          id: true,
          position: true,
          kind: true,
          key: true,
          name: true,
          access: true,
          minutes: true,
          grade: true,
        },
        orderBy: { position: "asc" },
        take: 500,
      },
      timeEntries: {
        select: ENTRY,
        orderBy: { id: "asc" },
        take: 2000,
      },
      revision: { select: { works: PACKAGES } },
      variations: {
        where: { state: "accepted" },
        select: {
          revisions: {
            where: { acceptance: { isNot: null } },
            select: { works: PACKAGES },
            orderBy: { id: "asc" },
            take: 5,
          },
        },
        orderBy: { id: "asc" },
        take: 50,
      },
      invoices: {
        where: ISSUED,
        select: { basis: true, frozen: true, creditedBy: CREDITS },
        orderBy: { id: "desc" },
        take: 1,
      },
      alsoOn: {
        where: { invoice: ISSUED },
        select: { basis: true, invoice: { select: { frozen: true, creditedBy: CREDITS } } },
        orderBy: { id: "desc" },
        take: 1,
      },
    },
  });
  if (!job) return null;
  const [grades, names] = await Promise.all([
    shop.read.labourGrade.findMany({
      select: { code: true, ratePerHourMinor: true },
      orderBy: { id: "asc" },
      take: 50,
    }),
    staffNames(shop),
  ]);
  const graded = atGrades(
    job.steps,
    grades.map((grade) => grade.code),
  );
  const rates = new Map(grades.map((grade) => [grade.code, grade.ratePerHourMinor]));
  const cells = reckon(
    { steps: graded.steps, entries: job.timeEntries.map(entryOf), loose: graded.main },
    (grade) => rates.get(grade) ?? 0,
    billedOf(job),
    shop.now.getTime(),
  );
  const works = [
    ...job.revision.works,
    ...job.variations.flatMap((one) => one.revisions.flatMap((r) => r.works)),
  ];
  const stepOf = new Map(job.steps.map((step) => [step.id, step]));
  const packageOf = new Map(job.steps.map((step) => [step.id, packageIn(works, step)]));
  const by = (keyOf: (cell: WorkCell) => string, nameOf: (key: string) => string): LabourRow[] =>
    [...summedBy(cells, keyOf)].map(([key, sums]) => ({ key, name: nameOf(key), ...sums }));
  const step = (key: string) => stepOf.get(Number(key));
  const operationName = (key: string) => {
    const [kind, rest = ""] = [key.slice(0, key.indexOf(" ")), key.slice(key.indexOf(" ") + 1)];
    return kind === "access"
      ? `Opening and closing: ${rest}`
      : kind === "step"
        ? (step(rest)?.name ?? OUTSIDE)
        : OUTSIDE;
  };
  return {
    id: job.id,
    number: job.number,
    title: job.title,
    all: summed(cells),
    /** The test rides among it, whose steps are the plan's own. */
    rides: {
      count: job.rides.length,
      ...summed(cells.filter((cell) => stepOf.get(cell.stepId ?? 0)?.kind === "ride")),
    },
    steps: by(
      (cell) => String(cell.stepId ?? 0),
      (key) => (step(key) ? `${step(key)?.position} ${step(key)?.name}` : OUTSIDE),
    ),
    operations: by((cell) => {
      const of = stepOf.get(cell.stepId ?? 0);
      if (!of) return OUTSIDE;
      return of.access ? `access ${of.access}` : `step ${of.id}`;
    }, operationName),
    people: by(
      (cell) => String(cell.staffId ?? 0),
      (key) => names.get(Number(key)) ?? "Nobody took time",
    ),
    packages: by(
      (cell) => String(packageOf.get(cell.stepId ?? 0)?.id ?? 0),
      (key) =>
        works.find((work) => String(work.packageRevision?.package.id) === key)?.packageRevision?.package
          .name ?? "No package",
    ).map((row) => (row.key === "0" ? row : { ...row, packageId: Number(row.key) })),
  };
}

const OUTSIDE = "Outside the steps";

type Work = {
  readonly key: string;
  readonly packageRevision: {
    readonly recipe: unknown;
    readonly package: { readonly id: number; readonly name: string };
  } | null;
};

/** The package a step belongs to: a step that two share is the first one's. */
function packageIn(
  works: readonly Work[],
  step: { key: string; name: string; access: string; kind: string },
) {
  return works.find(
    ({ key, packageRevision }) => packageRevision && keyIn(storedRecipe(packageRevision.recipe), key, step),
  )?.packageRevision?.package;
}

interface Printed {
  readonly frozen: unknown;
  readonly creditedBy: readonly { readonly frozen: unknown }[];
}

interface Invoiced {
  readonly number: string;
  readonly invoices: readonly (Printed & { readonly basis: string })[];
  readonly alsoOn: readonly { readonly basis: string; readonly invoice: Printed }[];
}

/**
 * The labour of the job's own lines on its issued invoice, as it prints them, less what its credit notes took of them; null while
 * there is none.
 */
function billedOf({ number, invoices, alsoOn }: Invoiced): Billed | null {
  const own = invoices[0] ?? (alsoOn[0] && { basis: alsoOn[0].basis, ...alsoOn[0].invoice });
  if (!own) return null;
  const docs = [own, ...own.creditedBy].map(({ frozen }) => storedInvoice(frozen));
  const lines = docs
    .flatMap((doc) => doc.lines)
    .filter((line) => line.kind === "labour" && (line.job === undefined || line.job === number));
  return {
    basis: own.basis === "asWorked" ? "asWorked" : "fixed",
    // Printed in thousandths of an hour; every whole minute is told apart by them.
    minutes: Math.round(lines.reduce((all, line) => all + (line.quantityMilli * 60) / 1000, 0)),
    minor: lines.reduce((all, line) => all + line.shownMinor, 0),
  };
}
