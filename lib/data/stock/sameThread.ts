import type { ShopReader } from "@/lib/db/shop";
import { type FlowsLike, foldedThread, type JetInDrawer, sameThread } from "@/lib/domain/tuning/sameThread";

/** A jet that the drawer lacks: a part of the shop's, or a size of a family that is none yet. */
export interface JetLacking {
  /** What the asker knows it by. */
  readonly key: string;
  readonly partId: number | null;
  readonly family?: string;
  readonly size?: number;
  readonly neededMilli: number;
}

/** Most jets of other drawers that are looked through. */
const MOST = 1000;

/** For each jet that is lacking, those of other drawers with the same thread that flow about alike; keys with none are left out. */
export async function sameThreadFor(
  read: Pick<ShopReader, "part" | "jetFamily">,
  lacking: readonly JetLacking[],
): Promise<Record<string, readonly FlowsLike[]>> {
  if (lacking.length === 0) return {};
  const families = await read.jetFamily.findMany({
    where: { thread: { not: "" } },
    select: { name: true, thread: true, convention: true },
    orderBy: { name: "asc" },
    take: 200,
  });
  if (families.length < 2) return {};
  const own = await read.part.findMany({
    where: { id: { in: lacking.flatMap(({ partId }) => partId ?? []) }, kind: "jet" },
    select: JET,
    orderBy: { id: "asc" },
  });
  const named = new Map(own.map((part) => [part.id, part]));
  const wanted = lacking.flatMap(({ key, partId, family, size, neededMilli }) => {
    const part = partId === null ? undefined : named.get(partId);
    const milli = part?.sizeMilli ?? (size === undefined ? null : size * 1000);
    const drawer = part?.family ?? family ?? "";
    return milli === null || drawer === "" || (partId !== null && !part)
      ? []
      : [{ key, family: drawer, size: milli / 1000, neededMilli }];
  });
  const threads = new Map(families.map(({ name, thread }) => [name, thread]));
  const folded = new Set(wanted.map(({ family }) => foldedThread(threads.get(family) ?? "")));
  folded.delete("");
  const names = families.filter(({ thread }) => folded.has(foldedThread(thread))).map(({ name }) => name);
  if (names.length < 2) return {};
  const rows = await read.part.findMany({
    where: { kind: "jet", active: true, family: { in: names }, sizeMilli: { not: null } },
    select: JET,
    orderBy: [{ family: "asc" }, { sizeMilli: "asc" }, { id: "asc" }],
    take: MOST,
  });
  const said = new Map(families.map(({ name, convention }) => [name, convention]));
  const jets = rows.flatMap((row) => inDrawer(row, said.get(row.family) ?? ""));
  return Object.fromEntries(
    wanted.flatMap(({ key, neededMilli, ...one }) => {
      const convention = said.get(one.family) || jets.find(({ family }) => family === one.family)?.convention;
      if (convention !== "bore" && convention !== "flow") return [];
      const found = sameThread({ ...one, convention }, neededMilli, jets, threads);
      return found.length > 0 ? [[key, found]] : [];
    }),
  );
}

const JET = {
  id: true,
  code: true,
  family: true,
  sizeMilli: true,
  convention: true,
  onHandMilli: true,
  reservedMilli: true,
} as const;

interface Row {
  readonly id: number;
  readonly code: string;
  readonly family: string;
  readonly sizeMilli: number | null;
  readonly convention: string;
  readonly onHandMilli: number;
  readonly reservedMilli: number;
}

/** A jet whose number nobody says the meaning of is none to compare. */
function inDrawer(row: Row, ofFamily: string): JetInDrawer[] {
  const convention = row.convention || ofFamily;
  if (row.sizeMilli === null || (convention !== "bore" && convention !== "flow")) return [];
  const { id: partId, code, family } = row;
  const freeMilli = row.onHandMilli - row.reservedMilli;
  return [{ partId, code, family, size: row.sizeMilli / 1000, convention, freeMilli }];
}
