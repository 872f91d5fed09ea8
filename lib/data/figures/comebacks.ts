import type { ShopHandle } from "@/lib/db/shop";

const YEAR_MS = 365 * 86_400_000;
const MOST = 500;

/** Comebacks counted under one name. */
export interface ComebackLine {
  readonly name: string;
  readonly comebacks: number;
}

export interface ComebackFigures {
  readonly whole: number;
  /** By the packages of the jobs that came back. */
  readonly packages: readonly ComebackLine[];
  /** By the people who passed operations on the jobs that came back: each of them once for a job. */
  readonly people: readonly ComebackLine[];
  /** Newest first. */
  readonly jobs: readonly {
    readonly id: number;
    readonly number: string;
    readonly of: string;
    readonly why: string;
    readonly chargedBp: number;
  }[];
}

/** Comebacks opened in the last twelve months: of which packages and of whose work. */
export async function comebackFigures(shop: ShopHandle): Promise<ComebackFigures> {
  const rows = await shop.read.jobAgreement.findMany({
    where: { kind: "comeback", job: { createdAt: { gte: new Date(shop.now.getTime() - YEAR_MS) } } },
    select: {
      why: true,
      chargedBp: true,
      job: { select: { id: true, number: true, state: true } },
      comebackOf: {
        select: {
          number: true,
          revision: {
            select: {
              works: {
                select: { packageRevision: { select: { package: { select: { name: true } } } } },
                orderBy: { position: "asc" },
                take: 20,
              },
            },
          },
          steps: {
            where: { kind: "operation", state: "done", doneBy: { not: null } },
            select: { doneBy: true },
            orderBy: { id: "asc" },
            take: 300,
          },
        },
      },
    },
    orderBy: { jobId: "desc" },
    take: MOST,
  });
  const counted = rows.filter((row) => row.job.state !== "cancelled");
  const staff = await shop.read.staff.findMany({
    select: { id: true, name: true },
    orderBy: { id: "asc" },
    take: 100,
  });
  const named = new Map(staff.map((one) => [one.id, one.name]));
  return {
    whole: counted.length,
    packages: linesOf(
      counted.map(({ comebackOf }) => {
        const works = comebackOf?.revision.works ?? [];
        const names = works.flatMap((work) => work.packageRevision?.package.name ?? []);
        return names.length > 0 ? names : ["No package"];
      }),
    ),
    people: linesOf(
      counted.map(({ comebackOf }) =>
        (comebackOf?.steps ?? []).flatMap((step) => named.get(step.doneBy ?? 0) ?? []),
      ),
    ),
    jobs: counted.slice(0, 12).map(({ job, comebackOf, why, chargedBp }) => ({
      id: job.id,
      number: job.number,
      of: comebackOf?.number ?? "",
      why,
      chargedBp,
    })),
  };
}

function linesOf(names: readonly (readonly string[])[]): ComebackLine[] {
  const counts = new Map<string, number>();
  for (const name of names.flatMap((one) => [...new Set(one)])) counts.set(name, (counts.get(name) ?? 0) + 1);
  return [...counts]
    .map(([name, comebacks]) => ({ name, comebacks }))
    .sort((a, b) => b.comebacks - a.comebacks || (a.name < b.name ? -1 : 1));
}
