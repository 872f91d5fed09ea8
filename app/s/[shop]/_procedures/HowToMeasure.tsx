import type { Procedure } from "@/lib/domain/procedures/procedure";

interface Props {
  readonly slug: string;
  readonly procedures: readonly Procedure[];
  /** What is measured, for a screen reader. */
  readonly of: string;
}

/** Beside a field: leads to how its value is measured, in a tab of its own so that what is typed stays. */
export function HowToMeasure({ slug, procedures, of }: Props) {
  return procedures.map((one) => (
    <a
      key={one.id}
      href={`/s/${slug}/bench/procedures/${one.id}`}
      target="_blank"
      rel="noreferrer"
      className="-mt-3 mb-3 inline-flex min-h-6 items-center text-[14px] text-brass underline decoration-dotted underline-offset-4 pointer-coarse:min-h-12"
    >
      How to measure<span className="sr-only"> {of}, in a new tab</span>
    </a>
  ));
}
