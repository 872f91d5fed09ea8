export interface LineOfChart {
  readonly name: string;
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly tone: "soft" | "brass" | "pine";
  readonly dashed?: boolean | undefined;
}

export const STROKE = { soft: "stroke-soft", brass: "stroke-brass", pine: "stroke-pine" } as const;

/** What each line of a chart is, and its band. */
export function LineKey({ lines, band }: { lines: readonly LineOfChart[]; band: string | undefined }) {
  return (
    <ul className="mt-1 flex flex-wrap gap-x-5 gap-y-1 text-[14px]">
      {lines.map((l) => (
        <li key={l.name} className="flex items-center gap-2">
          <svg width="28" height="8" aria-hidden="true">
            <line
              x1="0"
              x2="28"
              y1="4"
              y2="4"
              strokeWidth={l.dashed ? 2 : 3}
              strokeDasharray={l.dashed ? "6 5" : undefined}
              className={STROKE[l.tone]}
            />
          </svg>
          {l.name}
        </li>
      ))}
      {band && (
        <li className="flex items-center gap-2">
          <span aria-hidden="true" className="inline-block h-3 w-7 border border-edge bg-pine-wash" />
          {band}
        </li>
      )}
    </ul>
  );
}
