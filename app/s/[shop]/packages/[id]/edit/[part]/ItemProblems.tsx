import { Caution } from "@/app/_ui/Caution";
import type { Problem } from "@/lib/domain/packages/check";
import type { RecipePart } from "@/lib/schemas/recipeItem";
import { concerns } from "../concerns";

interface Props {
  problems: readonly Problem[];
  part: RecipePart;
  item: object | undefined;
}

/** What the checks say of this one item. */
export function ItemProblems({ problems, part, item }: Props) {
  const own = item ? problems.filter((problem) => concerns(problem, part, item)) : [];
  if (own.length === 0) return null;
  return (
    <div className="mb-5 max-w-[46rem]">
      <Caution title="As it is saved, the checks say of it:">
        <ul className="mt-1 list-disc pl-5">
          {own.map((p) => (
            <li key={p.message}>{p.message}</li>
          ))}
        </ul>
      </Caution>
    </div>
  );
}
