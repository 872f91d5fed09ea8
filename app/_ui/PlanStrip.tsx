import { Chart } from "./Chart";
import { cx } from "./cx";
import {
  type LaidBracket,
  type LaidStep,
  LETTER,
  layBrackets,
  laySteps,
  type StripBracket,
  type StripStep,
} from "./stripLayout";
import { words } from "./words";

export interface PlanStripProps {
  title: string;
  description: string;
  steps: readonly StripStep[];
  brackets: readonly StripBracket[];
}

const LEVEL = 27;
const BOX = 30;
/** The widths the drawings are fitted to. */
const MIDDLE = 540;
const WIDE = 890;
const NARROW = 300;

const percent = (share: number) => `${Math.round(share * 100) / 100}%`;

function Bracket({ at, base, label }: { at: LaidBracket; base: number; label: boolean }) {
  const y = base - 10 - at.level * LEVEL;
  const [from, to] = [percent(at.left), percent(at.left + at.wide)];
  return (
    <>
      <g className="stroke-ink" strokeWidth="1.2">
        <line x1={from} x2={to} y1={y} y2={y} />
        <line x1={from} x2={from} y1={y} y2={y + 8} />
        <line x1={to} x2={to} y1={y} y2={y + 8} />
      </g>
      {label && (
        <text
          x={at.fromRight ? to : from}
          dx={at.fromRight ? -7 : 7}
          y={y - 6}
          textAnchor={at.fromRight ? "end" : "start"}
          className="fill-soft"
        >
          {at.label}
        </text>
      )}
    </>
  );
}

function Box({
  step,
  base,
  width,
  numbers,
}: {
  step: LaidStep;
  base: number;
  width: number;
  numbers: boolean;
}) {
  const room = (step.wide / 100) * width;
  const fits = step.name.length * LETTER + 8 < room;
  const inside = numbers ? String(step.number) : fits ? step.name : String(step.minutes);
  const shown = inside.length * LETTER + 4 < room;
  const middle = percent(step.left + step.wide / 2);
  return (
    <>
      <rect
        x={percent(step.left)}
        width={percent(step.wide)}
        y={base}
        height={BOX}
        className={step.kind === "operation" ? "fill-brass-wash" : "fill-hair"}
      >
        {/* Numbered boxes are listed with their names below. */}
        {!numbers && <title>{`${step.name}, ${step.minutes} ${words.minutes}`}</title>}
      </rect>
      {shown && (
        <text x={middle} y={base + 20} className={numbers || !fits ? "font-mono" : undefined}>
          {inside}
        </text>
      )}
      {fits && !numbers && (
        <text x={middle} y={base + BOX + 17} className="fill-soft font-mono">
          {step.minutes}
        </text>
      )}
    </>
  );
}

/** A work plan as a ruled strip of minutes, its openings bracketed. Where it is narrow the steps are numbered and listed below. */
export function PlanStrip({ title, description, steps, brackets }: PlanStripProps) {
  const laid = laySteps(steps);
  const inOrder = [...brackets].sort((a, b) => a.from - b.from || b.to - a.to);
  const layout = (width: number, withWords: boolean) => {
    const openings = layBrackets(brackets, laid, width, withWords);
    const levels = openings.reduce((most, bracket) => Math.max(most, bracket.level + 1), 0);
    return { openings, base: levels * LEVEL + (withWords ? 12 : 2) };
  };
  const [narrow, middle, wide] = [layout(NARROW, false), layout(MIDDLE, true), layout(WIDE, true)];
  const draw = ({ openings, base: y }: typeof wide, width: number, numbers: boolean) => (
    <>
      {openings.map((bracket) => (
        <Bracket
          key={`${bracket.from}-${bracket.to}-${bracket.label}`}
          at={bracket}
          base={y}
          label={!numbers}
        />
      ))}
      <g className="fill-ink [&>rect]:stroke-ink [&>text]:[text-anchor:middle]">
        {laid.map((step) => (
          <Box key={step.number} step={step} base={y} width={width} numbers={numbers} />
        ))}
      </g>
    </>
  );
  return (
    <Chart
      title={title}
      description={description}
      height={middle.base + BOX + 24}
      inset="px-px"
      narrow={{ height: narrow.base + BOX + 6, children: draw(narrow, NARROW, true) }}
      wide={{ height: wide.base + BOX + 24, children: draw(wide, WIDE, false) }}
      table={{
        head: ["step", "name", words.minutes],
        rows: laid.map((step) => [step.number, step.name, step.minutes]),
      }}
      legend={
        <div className="mt-2 text-[14px]">
          <ol className="@[520px]:hidden print:hidden [&>li]:flex [&>li]:gap-3 [&>li]:border-hair [&>li]:border-b [&>li]:py-1">
            {laid.map((step) => (
              <li key={step.number}>
                <span className="w-6 font-mono text-soft">{step.number}</span>
                <span className="flex-1">{step.name}</span>
                <span className="font-mono">{step.minutes}</span>
              </li>
            ))}
          </ol>
          <ul className="gap-x-8 @[520px]:columns-2">
            {inOrder.map((bracket) => (
              <li
                key={`${bracket.from}-${bracket.label}`}
                className={cx("pt-1 text-soft", !bracket.label.includes(" · ") && "@[520px]:hidden")}
              >
                <span className="font-mono @[520px]:hidden">
                  {bracket.from + 1}–{bracket.to + 1}{" "}
                </span>
                {bracket.label}
              </li>
            ))}
          </ul>
        </div>
      }
    >
      {draw(middle, MIDDLE, false)}
    </Chart>
  );
}
