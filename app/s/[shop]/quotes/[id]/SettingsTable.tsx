import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import type { SettingsShown } from "./shown/settings";

interface Props {
  settings: readonly SettingsShown[];
  /** Address that answers what a setting rests on, as far as the setting; where the rows do not have it. */
  why?: string | undefined;
}

/** The settings that change, as found and target, with what each rests on. */
export function SettingsTable({ settings, why }: Props) {
  if (settings.every(({ rows }) => rows.length === 0)) return null;
  return (
    <Section title="Settings that change">
      {settings.map(({ key: carburettor, rows }) => (
        <table key={carburettor} className="mb-3 w-full border-collapse text-[15px]">
          <caption className={settings.length > 1 ? "text-start text-[14px] text-soft" : "sr-only"}>
            {carburettor}
          </caption>
          <thead>
            <tr className="text-[13px] text-soft">
              <th scope="col" className="py-1 text-start font-semibold">
                Setting
              </th>
              <th scope="col" className="py-1 text-end font-semibold">
                As found
              </th>
              <th scope="col" className="py-1 text-end font-semibold">
                Target
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ key, name, from, to, rests, density, because, firmness }) => (
              <tr key={key} className="border-hair border-t">
                <th scope="row" className="py-1.5 text-start font-normal">
                  {name}
                </th>
                <td className="py-1.5 ps-3 text-end font-mono">{from}</td>
                <td className="py-1.5 ps-3 text-end">
                  <Opens
                    name={name}
                    because={because ?? `${why}&setting=${key}&of=${encodeURIComponent(carburettor)}`}
                    firmness={firmness}
                  >
                    {to}
                  </Opens>
                  <span className="block text-[13px] text-soft">{rests}</span>
                  {density && (
                    <span className="block text-[13px] text-soft">by air density alone, firm: {density}</span>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </Section>
  );
}
