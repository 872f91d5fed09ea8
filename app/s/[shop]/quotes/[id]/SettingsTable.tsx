import { figureText } from "@/app/_ui/format";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import { settingDef } from "@/lib/domain/tuning/settings";
import type { CarburettorTarget, TargetSheet } from "@/lib/domain/tuning/targetTypes";
import { restsOn } from "../../bikes/restsOn";

/** The settings that change, as found and target, with what each rests on. */
export function SettingsTable({ sheet, locale }: { sheet: TargetSheet | null; locale: string }) {
  const shown =
    sheet?.carburettors.map((c) => ({ c, changed: c.settings.filter((s) => s.value !== s.from) })) ?? [];
  if (shown.every(({ changed }) => changed.length === 0)) return null;
  return (
    <Section title="Settings that change">
      {shown.map(({ c, changed }) => (
        <table key={c.name} className="mb-3 w-full border-collapse text-[15px]">
          <caption className={shown.length > 1 ? "text-start text-[14px] text-soft" : "sr-only"}>
            {c.name}
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
            {changed.map((s) => {
              const def = settingDef(s.key);
              const text = (value: number) =>
                `${figureText(value, locale, def?.decimals)}${def?.unit ? ` ${def.unit}` : ""}`;
              return (
                <tr key={s.key} className="border-hair border-t">
                  <th scope="row" className="py-1.5 text-start font-normal">
                    {def?.name ?? s.key}
                  </th>
                  <td className="py-1.5 ps-3 text-end font-mono">
                    {s.from === null ? "not known" : text(s.from)}
                  </td>
                  <td className="py-1.5 ps-3 text-end">
                    <Opens name={def?.name ?? s.key} because={reasonsOf(c, s)} firmness={s.firmness}>
                      {text(s.value)}
                    </Opens>
                    <span className="block text-[13px] text-soft">{restsOn(s)}</span>
                    {s.key === "mainJet" && s.how === "computed" && c.mainJet?.density && (
                      <span className="block text-[13px] text-soft">
                        by air density alone, firm: {text(c.mainJet.density.size)}
                      </span>
                    )}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      ))}
    </Section>
  );
}

function reasonsOf(c: CarburettorTarget, s: CarburettorTarget["settings"][number]) {
  const choice = s.key === "mainJet" ? c.mainJet : s.key === "pilotJet" ? c.pilotJet : null;
  if (!choice || s.how !== "computed") return s.because;
  const more = [
    { fact: "Size that would be exactly right", from: "fuel model", effect: choice.exact.toFixed(1) },
    {
      fact: "In the drawer",
      from: choice.note || "stock",
      effect: choice.inDrawer ? `${choice.chosen.free}` : "none",
    },
    ...(choice.runnerUp
      ? [{ fact: "Next best size", from: "same choice", effect: String(choice.runnerUp.size) }]
      : []),
    {
      fact: "Chance of running lean at full throttle",
      from: "lambda above 0.92",
      effect: `${Math.round(choice.chosen.leanRisk * 100)} %`,
    },
  ];
  return [...s.because, ...more];
}
