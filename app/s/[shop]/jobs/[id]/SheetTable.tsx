import { Empty } from "@/app/_ui/Empty";
import { figureText } from "@/app/_ui/format";
import type { JobSheets, SheetOfJob } from "@/lib/data/jobs/sheets";
import { SETTINGS } from "@/lib/domain/tuning/settings";

const KINDS = [
  ["asFound", "As found"],
  ["target", "Target"],
  ["asLeft", "As left"],
] as const;

/** As found, target and as left of every setting that any of them knows, side by side; a sheet that there is not has no column. */
export function SheetTable({ sheets, locale }: { sheets: JobSheets; locale: string }) {
  const kinds = KINDS.filter(([kind]) => (sheets[kind]?.values.length ?? 0) > 0);
  const all = KINDS.flatMap(([kind]) => sheets[kind]?.values ?? []);
  if (all.length === 0)
    return <Empty title="No setting is recorded yet." text="Record the bike as found on its own page." />;
  const carburettors = [...new Set(all.map((value) => value.carburettor))].sort();
  const foundOn = (sheet: SheetOfJob | null, carburettor: number, setting: string) =>
    sheet?.values.find((value) => value.carburettor === carburettor && value.setting === setting);
  return carburettors.map((carburettor) => (
    <table key={carburettor} className="ledger mb-4">
      <caption className={carburettors.length > 1 ? "text-start font-semibold" : "sr-only"}>
        Settings of carburettor {carburettor}
      </caption>
      <thead>
        <tr>
          <th scope="col">Setting</th>
          {kinds.map(([kind, name]) => (
            <th key={kind} scope="col" data-align="end">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {SETTINGS.filter((def) =>
          all.some((v) => v.setting === def.key && v.carburettor === carburettor),
        ).map((def) => (
          <tr key={def.key}>
            <td data-first="">
              {def.name} {def.unit && <span className="text-soft">{def.unit}</span>}
            </td>
            {kinds.map(([kind, name]) => {
              const found = foundOn(sheets[kind], carburettor, def.key);
              return (
                <td key={kind} data-name={name} data-align="end" data-empty={found ? undefined : ""}>
                  {found && (
                    <span>
                      <span className={kind === "target" ? "font-mono text-brass" : "font-mono"}>
                        {figureText(found.value, locale, def.decimals)}
                      </span>{" "}
                      <span className="text-[13px] text-soft">{found.how}</span>
                    </span>
                  )}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  ));
}
