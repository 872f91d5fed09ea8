import { Chart } from "./Chart";
import { cx } from "./cx";
import {
  type LaidBracket,
  type LaidStep,
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
/** Pixels a letter takes at 13 px, and the widths the drawings are fitted to. */
const LETTER = 6.9;
const MIDDLE = 540;
const WIDE = 890;
const NARROW = 300;

function Bracket({ at, base, label }: { at: LaidBracket; base: number; label: boolean }) {
  const y = base - 10 - at.level * LEVEL;
  const [from, to] = [`${at.left}%`, `${at.left + at.wide}%`];
  return (
    <g className="stroke-ink" strokeWidth="1.2">
      <line x1={from} x2={to} y1={y} y2={y} />
      <line x1={from} x2={from} y1={y} y2={y + 8} />
      <line x1={to} x2={to} y1={y} y2={y + 8} />
      {label && (
        <text
          x={at.left > 60 ? to : from}
          dx={at.left > 60 ? -7 : 7}
          y={y - 6}
          textAnchor={at.left > 60 ? "end" : "start"}
          className="fill-soft stroke-none"
        >
          {at.label}
        </text>
      )}
    </g>
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
  const middle = `${step.left + step.wide / 2}%`;
  return (
    <g>
      <rect
        x={`${step.left}%`}
        width={`${step.wide}%`}
        y={base}
        height={BOX}
        className={cx("stroke-ink", step.kind === "operation" ? "fill-brass-wash" : "fill-hair")}
      >
        <title>{`${step.name}, ${step.minutes} ${words.minutes}`}</title>
      </rect>
      {shown && (
        <text
          x={middle}
          y={base + 20}
          textAnchor="middle"
          className={cx("fill-ink", (numbers || !fits) && "font-mono")}
        >
          {inside}
        </text>
      )}
      {fits && !numbers && (
        <text x={middle} y={base + BOX + 17} textAnchor="middle" className="fill-soft font-mono">
          {step.minutes}
        </text>
      )}
    </g>
  );
}

/** A work plan as a ruled strip of minutes, its openings bracketed. Where it is narrow the steps are numbered and listed below. */
export function PlanStrip({ title, description, steps, brackets }: PlanStripProps) {
  const laid = laySteps(steps);
  const openings = layBrackets(brackets, laid);
  const levels = openings.reduce((most, bracket) => Math.max(most, bracket.level + 1), 0);
  const base = levels * LEVEL + 12;
  const narrowBase = levels * LEVEL + 2;
  const draw = (y: number, width: number, numbers: boolean) => (
    <>
      {openings.map((bracket) => (
        <Bracket
          key={`${bracket.from}-${bracket.to}-${bracket.label}`}
          at={bracket}
          base={y}
          label={!numbers}
        />
      ))}
      {laid.map((step) => (
        <Box key={step.number} step={step} base={y} width={width} numbers={numbers} />
      ))}
    </>
  );
  return (
    <Chart
      title={title}
      description={description}
      height={base + BOX + 24}
      inset="px-px"
      narrow={{ height: narrowBase + BOX + 6, children: draw(narrowBase, NARROW, true) }}
      wide={{ height: base + BOX + 24, children: draw(base, WIDE, false) }}
      table={{
        head: ["step", "name", words.minutes],
        rows: laid.map((step) => [step.number, step.name, step.minutes]),
      }}
      legend={
        <div className="mt-2 text-[14px] @[520px]:hidden print:hidden">
          <ol>
            {laid.map((step) => (
              <li key={step.number} className="flex gap-3 border-hair border-b py-1">
                <span className="w-6 font-mono text-soft">{step.number}</span>
                <span className="flex-1">{step.name}</span>
                <span className="font-mono">{step.minutes}</span>
              </li>
            ))}
          </ol>
          {openings.map((bracket) => (
            <p key={`${bracket.from}-${bracket.label}`} className="pt-1 text-soft">
              <span className="font-mono">
                {bracket.from + 1}–{bracket.to + 1}
              </span>{" "}
              {bracket.label}
            </p>
          ))}
        </div>
      }
    >
      {draw(base, MIDDLE, false)}
    </Chart>
  );
}
