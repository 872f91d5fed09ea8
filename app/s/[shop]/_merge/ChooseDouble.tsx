import { Button } from "@/app/_ui/Button";
import { CONTROL } from "@/app/_ui/FieldFrame";
import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";

export interface Candidate {
  readonly id: number;
  readonly name: string;
  readonly about: string;
}

/** Looks for the double of a record: those like it first, others by a search. */
export function ChooseDouble({
  here,
  q,
  candidates,
}: {
  /** Address of this page. */
  here: string;
  q: string;
  candidates: readonly Candidate[];
}) {
  return (
    <div className="max-w-[720px]">
      <p className="mb-4 text-soft">
        Choose the double. Nothing is done before you have seen what would go over.
      </p>
      <form action={here} className="flex flex-wrap items-end gap-3">
        <label className="min-w-0 grow font-semibold text-[15px]">
          Find it by name, number or words
          <input name="q" defaultValue={q} maxLength={100} className={`mt-1 font-normal ${CONTROL}`} />
        </label>
        <Button type="submit">Find</Button>
      </form>
      <Section title="Which one is the double">
        {candidates.length === 0 ? (
          <p className="text-soft">None is found by these words.</p>
        ) : (
          <ul className="border-rule border-t">
            {candidates.map((one) => (
              <li key={one.id} className="border-hair border-b">
                <Link
                  href={`${here}?with=${one.id}`}
                  className="grid min-h-12 gap-x-6 py-2.5 no-underline hover:bg-sheet sm:grid-cols-[minmax(0,1fr)_minmax(0,2fr)]"
                >
                  <strong>{one.name}</strong>
                  <span className="text-soft">{one.about}</span>
                </Link>
              </li>
            ))}
          </ul>
        )}
      </Section>
    </div>
  );
}
