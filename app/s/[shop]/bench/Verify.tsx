import { Shape } from "@/app/_ui/Shape";
import { VERIFY } from "@/lib/domain/reason";

/** Stands beside every number that nobody has measured yet. */
export function Verify() {
  return (
    <p className="my-2 flex items-baseline gap-2 bg-brass-wash px-3 py-1.5 text-[14px]">
      <Shape shape="circle" tone="brass" />
      <span>{VERIFY}</span>
    </p>
  );
}

/** Warnings with what to do about each, and who says so. */
export function BenchWarnings({
  warnings,
}: {
  warnings: readonly { rule: string; message: string; remedy: string; source: string }[];
}) {
  if (warnings.length === 0) return null;
  return (
    <ul aria-label="To look at" className="mb-4 text-[15px]">
      {warnings.map((w) => (
        <li key={w.rule + w.message} className="flex items-baseline gap-2 border-hair border-b py-2">
          <Shape shape="triangle" tone="brass" />
          <span>
            {w.message}{" "}
            <span className="text-soft">
              {w.remedy} ({w.source})
            </span>
          </span>
        </li>
      ))}
    </ul>
  );
}

/** What stood in for facts nobody gave. */
export function Assumptions({ list }: { list: readonly { fact: string; effect?: string }[] }) {
  if (list.length === 0) return null;
  return (
    <details className="mb-4 text-[14px] text-soft">
      <summary className="inline-flex min-h-6 items-center underline decoration-dotted underline-offset-4 pointer-coarse:min-h-12">
        {list.length} assumptions stand in for facts and widen the range
      </summary>
      <ul className="mt-1 list-disc pl-5">
        {list.map((a) => (
          <li key={a.fact}>{a.fact}</li>
        ))}
      </ul>
    </details>
  );
}
