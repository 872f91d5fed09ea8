import { DESCRIBED_NAMES, type DescribedPart, partWords } from "@/lib/domain/tuning/describedParts";

export interface PartRow {
  readonly carburettor: number;
  readonly kind: DescribedPart["kind"];
  /** One for each column; null where nobody described it. */
  readonly parts: readonly (DescribedPart | null)[];
}

/** Described parts side by side: as found, to make, as left. Nothing where none was described. */
export function PartsBeside({
  caption,
  columns,
  rows,
}: {
  caption: string;
  columns: readonly string[];
  rows: readonly PartRow[];
}) {
  if (rows.length === 0) return null;
  const several = new Set(rows.map((row) => row.carburettor)).size > 1;
  return (
    <table className="ledger mb-3">
      <caption className="sr-only">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">Part</th>
          {columns.map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ carburettor, kind, parts }) => (
          <tr key={`${carburettor} ${kind}`}>
            <td data-first="">
              {DESCRIBED_NAMES[kind]}
              {several && <span className="text-soft">, carburettor {carburettor}</span>}
            </td>
            {columns.map((column, at) => {
              const part = parts[at] ?? null;
              return (
                <td key={column} data-name={column} data-empty={part ? undefined : ""}>
                  {part && partWords(part)}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
