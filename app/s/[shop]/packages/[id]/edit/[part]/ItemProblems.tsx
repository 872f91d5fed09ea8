import { Caution } from "@/app/_ui/Caution";
import type { Problem } from "@/lib/domain/packages/check";

/** What the checks say of this one item. */
export function ItemProblems({ problems, itemKey }: { problems: readonly Problem[]; itemKey: string }) {
  const own = problems.filter((p) => itemKey !== "" && p.names.includes(itemKey));
  if (own.length === 0) return null;
  return (
    <div className="mb-5 max-w-[46rem]">
      <Caution title="The checks say of it:">
        <ul className="mt-1 list-disc pl-5">
          {own.map((p) => (
            <li key={p.message}>{p.message}</li>
          ))}
        </ul>
      </Caution>
    </div>
  );
}
