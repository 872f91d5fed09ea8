import { Caution } from "@/app/_ui/Caution";
import { Note } from "@/app/_ui/Note";
import type { Problem } from "@/lib/domain/packages/check";

const KIND: Record<Problem["kind"], string> = {
  name: "Unknown name",
  duplicate: "Key used twice",
  operation: "Work",
  access: "Access",
  setting: "Setting",
  cycle: "Circle",
  clash: "Clash",
  rule: "Rule",
};

/** What keeps a draft from being published: each names the rule or the key it is about. */
export function Problems({ problems }: { problems: readonly Problem[] }) {
  if (problems.length === 0)
    return (
      <Note title="Every check passes.">This draft can be published; from then on it never changes.</Note>
    );
  return (
    <Caution title={`Not to be published yet: ${problems.length} to put right.`}>
      <ul className="mt-2 list-disc pl-5">
        {problems.map((p) => (
          <li key={p.message} className="py-0.5">
            <strong>{KIND[p.kind]}:</strong> {p.message}{" "}
            {p.names.length > 0 && <span className="font-mono text-[14px]">({p.names.join(", ")})</span>}
          </li>
        ))}
      </ul>
    </Caution>
  );
}
