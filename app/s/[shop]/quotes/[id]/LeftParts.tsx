import { Section } from "@/app/_ui/Section";
import type { TargetSheet } from "@/lib/domain/tuning/targetTypes";
import { PartsBeside } from "../../_parts/PartsBeside";

/** Spring, holes, openings, filter and silencer before and after the work. Nothing where it leaves them alone. */
export function LeftParts({ sheet }: { sheet: TargetSheet | null }) {
  const rows = (sheet?.carburettors ?? []).flatMap((c, at) =>
    (c.parts ?? []).map(({ before, after }) => ({
      carburettor: at + 1,
      kind: after.kind,
      parts: [before, after],
    })),
  );
  if (rows.length === 0) return null;
  return (
    <Section title="Parts left otherwise">
      <PartsBeside caption="Parts before and after the work" columns={["as found", "after"]} rows={rows} />
    </Section>
  );
}
