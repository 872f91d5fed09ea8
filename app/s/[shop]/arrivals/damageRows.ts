import type { FormState } from "@/app/_ui/formState";
import type { BikePart, Damage, Side } from "@/lib/domain/arrival/damage";

/** A mark as it is being written. */
export interface DamageRow {
  readonly side: Side;
  readonly part: BikePart | "";
  readonly what: Damage | "";
  readonly note: string;
  /** Where it was touched; empty where the part was named. */
  readonly x: string;
  readonly y: string;
  /** The mark of a replaced record that it goes back to. */
  readonly firstId: string;
}

const FIELD = /^damages\.(\d+)\.(side|part|what|note|x|y|firstId)$/;
const EMPTY: DamageRow = { side: "left", part: "", what: "", note: "", x: "", y: "", firstId: "" };

/** The rows that a refused or half-typed form held; undefined where it held none of ours. */
export function typedRows(values: FormState["values"] | undefined): DamageRow[] | undefined {
  if (!values) return undefined;
  const rows = new Map<string, Record<string, string>>();
  for (const [name, value] of Object.entries(values)) {
    const [, at, field] = FIELD.exec(name) ?? [];
    if (at === undefined || field === undefined) continue;
    rows.set(at, { ...rows.get(at), [field]: typeof value === "string" ? value : (value[0] ?? "") });
  }
  return [...rows]
    .sort(([a], [b]) => Number(a) - Number(b))
    .map(([, row]) => ({ ...EMPTY, ...row }))
    .filter(({ what, note, x, part }) => what || note || x || part);
}
