import { Caution } from "@/app/_ui/Caution";
import { Link } from "@/app/_ui/Link";
import { Note } from "@/app/_ui/Note";
import { keyOf } from "@/lib/data/packages/items";
import type { Problem } from "@/lib/domain/packages/check";
import { type Lack, lackText } from "@/lib/domain/packages/supplies";
import { itemOf } from "./edit/concerns";
import { PART_WORDS } from "./edit/partWords";

const KIND: Record<Problem["kind"], string> = {
  name: "Unknown name",
  duplicate: "Key used twice",
  operation: "Work",
  access: "Access",
  setting: "Setting",
  cycle: "Circle",
  clash: "Clash",
  rule: "Rule",
  undecided: "Not decided",
};

interface Props {
  problems: readonly Problem[];
  /** What the recipe names and the shop does not have. */
  lacks: readonly Lack[];
  /** Where the draft is edited; absent where it cannot be. */
  edit?: string | undefined;
}

/** What keeps a draft from being published, each with the way to where it is put right; then what the shop lacks for it. */
export function Problems({ problems, lacks, edit }: Props) {
  return (
    <>
      {problems.length === 0 ? (
        <Note title="Every check passes.">This draft can be published; from then on it never changes.</Note>
      ) : (
        <Caution title={`Not to be published yet: ${problems.length} to put right.`}>
          <ul className="mt-2 list-disc pl-5">
            {problems.map((p) => (
              <li key={p.message} className="py-0.5">
                <strong>{KIND[p.kind]}:</strong> {p.message} {edit && <Mend problem={p} edit={edit} />}
              </li>
            ))}
          </ul>
        </Caution>
      )}
      <Lacks lacks={lacks} />
    </>
  );
}

function Mend({ problem, edit }: { problem: Problem; edit: string }) {
  const item = itemOf(problem);
  if (!item) return null;
  const key = item.rule ? keyOf(item.rule) : item.key;
  return (
    <Link
      href={`${edit}/${item.part}?key=${encodeURIComponent(key)}`}
      className="inline-flex min-h-6 items-center whitespace-nowrap underline underline-offset-4 pointer-coarse:min-h-12"
    >
      {`Open the ${PART_WORDS[item.part].one}`}
    </Link>
  );
}

/** What the shop has to add before quotes of a recipe are whole. It can be published all the same. */
export function Lacks({ lacks }: { lacks: readonly Lack[] }) {
  if (lacks.length === 0) return null;
  return (
    <Note title="The shop lacks something for it.">
      <ul className="mt-2 list-disc pl-5">
        {lacks.map((lack) => (
          <li key={`${lack.what} ${lack.name}`} className="py-0.5">
            {lackText(lack)}
          </li>
        ))}
      </ul>
    </Note>
  );
}
