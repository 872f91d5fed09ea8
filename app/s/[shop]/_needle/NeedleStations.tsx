import { figureText } from "@/app/_ui/format";
import { diameterAt, type NeedleRecord, stationsBeside } from "@/lib/domain/tuning/needleRecord";

export interface NeedleColumn {
  readonly name: string;
  readonly record: NeedleRecord | null;
}

/** Diameters of needles side by side at their stations below the shoulder; between a needle's stations it is taken for a cone. */
export function NeedleStations({
  caption,
  columns,
  locale,
}: {
  caption: string;
  columns: readonly NeedleColumn[];
  locale: string;
}) {
  const known = columns.filter((column) => (column.record?.stations.length ?? 0) > 0);
  if (known.length === 0) return null;
  const places = stationsBeside(known.flatMap((column) => column.record ?? []));
  return (
    <table className="ledger mb-3">
      <caption className="sr-only">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">
            Below the shoulder <span className="text-soft">mm</span>
          </th>
          {known.map((column) => (
            <th key={column.name} scope="col" data-align="end">
              {column.name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {places.map((atMm) => (
          <tr key={atMm}>
            <td data-first="" className="font-mono">
              {figureText(atMm, locale, 1)}
              <span className="font-sans text-soft sm:hidden"> mm below the shoulder</span>
            </td>
            {known.map((column) => {
              const d = column.record ? diameterAt(column.record, atMm) : null;
              return (
                <td
                  key={column.name}
                  data-name={column.name}
                  data-align="end"
                  data-empty={d === null ? "" : undefined}
                >
                  {d !== null && <span className="font-mono">{figureText(d, locale, 3)}</span>}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
