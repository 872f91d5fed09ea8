import type { JobPart } from "@/lib/data/jobs/madeParts";
import { PartsBeside } from "../../_parts/PartsBeside";

const OF = { "As found": "found", Target: "target", "As left": "left" } as const;

/** The described parts that a job changes, in the columns asked for. */
export function JobDescribed({
  described,
  columns,
}: {
  described: readonly JobPart[];
  columns: readonly (keyof typeof OF)[];
}) {
  const changed = described.filter((one) => one.target || one.left);
  return (
    <PartsBeside
      caption="Parts as described"
      columns={columns}
      rows={changed.map((one) => ({
        carburettor: one.carburettor,
        kind: one.kind,
        parts: columns.map((column) => one[OF[column]]?.part ?? null),
      }))}
    />
  );
}
