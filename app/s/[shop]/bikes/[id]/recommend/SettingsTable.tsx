import { WHY } from "@/app/_documents/recommendReasons";
import { figureText } from "@/app/_ui/format";
import { Opens } from "@/app/_ui/Opens";
import { State } from "@/app/_ui/State";
import { settingDef } from "@/lib/domain/tuning/settings";
import type { TargetSetting } from "@/lib/domain/tuning/targetTypes";
import { restsOn } from "../../restsOn";
import { settingText } from "../../settingText";

const HEAD = "border-rule border-b py-1 pl-3 text-end font-semibold first:pl-0 first:text-start";
const CELL = "py-1.5 pl-3 text-end";

/** Every setting as found and as recommended; each opens to what it rests on. */
export function SettingsTable({
  name,
  settings,
  why,
  locale,
}: {
  name: string;
  settings: readonly TargetSetting[];
  /** The address that answers what one of its figures rests on. */
  why: (of: string) => string;
  locale: string;
}) {
  const text = (s: TargetSetting, value: number | null) => {
    const def = settingDef(s.key);
    return value === null || !def
      ? "–"
      : settingText({ setting: s.key, decimals: def.decimals, unit: def.unit }, value, locale);
  };
  return (
    <div className="mb-4 overflow-x-auto">
      <table className="w-full border-collapse text-[15px]">
        <caption className="sr-only">{`Settings of ${name}`}</caption>
        <thead>
          <tr className="text-[13px] text-soft">
            {["Setting", "As found", "Recommended", ""].map((head) => (
              <th key={head} scope="col" className={HEAD}>
                {head || <span className="sr-only">Changed</span>}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {settings.map((s) => (
            <tr
              key={s.key}
              className={s.value === s.from ? "border-hair border-b" : "border-hair border-b bg-brass-wash"}
            >
              <th scope="row" className="py-1.5 pr-2 text-start font-normal">
                {settingDef(s.key)?.name ?? s.key}
              </th>
              <td className={`${CELL} font-mono text-soft`}>{text(s, s.from)}</td>
              <td className={CELL}>
                <Opens
                  name={settingDef(s.key)?.name ?? s.key}
                  because={why(WHY.setting(name, s.key))}
                  firmness={s.firmness}
                >
                  {text(s, s.value)}
                </Opens>
              </td>
              <td className={`${CELL} pr-1 text-[13px]`}>
                {s.value === s.from ? (
                  <span className="text-soft">stays</span>
                ) : (
                  <State shape="diamond" tone="brass">
                    {changeText(s, locale)}
                  </State>
                )}
                <span className="block text-soft">{restsOn(s)}</span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function changeText(s: TargetSetting, locale: string): string {
  if (s.from === null) return "new";
  if (s.key === "snorkelFitted") return "changed";
  return `${s.value > s.from ? "+" : ""}${figureText(Number((s.value - s.from).toFixed(3)), locale)}`;
}
