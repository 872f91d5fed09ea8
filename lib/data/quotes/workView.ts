import type { Work } from "@/lib/domain/packages/work";
import { storedWork, type WorkRow } from "../packages/works";

/** A work as the page that edits it shows it. */
export type WorkView =
  | {
      readonly kind: "package";
      readonly key: string;
      readonly name: string;
      readonly packageId: number;
      readonly revision: number;
    }
  | Exclude<Work, { kind: "package" }>;

export function workView(row: WorkRow): WorkView {
  const work = storedWork(row);
  if (work.kind !== "package") return work;
  return {
    kind: "package",
    key: work.key,
    name: work.name,
    packageId: row.packageRevision?.package.id ?? 0,
    revision: row.packageRevision?.number ?? 0,
  };
}
