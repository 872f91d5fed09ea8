import type { ReactNode } from "react";
import { CarburettorLines } from "./CarburettorLines";
import { Chart } from "./Chart";

/** The places of the drawing that a setting can be called out at. */
export type CalledOut =
  | "mainJet"
  | "pilotJet"
  | "clipPosition"
  | "mixtureScrewTurns"
  | "floatHeightMm"
  | "springLengthMm"
  | "liftHoleMm"
  | "airboxOpeningMm";

export interface CarburettorCall {
  readonly at: CalledOut;
  readonly name: string;
  /** As text for the table behind. */
  readonly text: string;
  /** As shown beside the drawing: plain, or a figure that opens. */
  readonly shown?: ReactNode;
}

/** Where each number stands, and the point it leads to. */
const PLACES: Readonly<Record<CalledOut, readonly [x: number, y: number, toX: number, toY: number]>> = {
  airboxOpeningMm: [30, 66, 30, 98],
  springLengthMm: [262, 26, 217, 56],
  liftHoleMm: [148, 128, 199, 182],
  clipPosition: [286, 128, 213, 152],
  mixtureScrewTurns: [382, 268, 345, 236],
  pilotJet: [118, 356, 163, 303],
  mainJet: [210, 366, 210, 318],
  floatHeightMm: [330, 330, 281, 284],
};

/** A constant-vacuum carburettor cut lengthwise, its settings numbered, with their values beside it. */
export function CarburettorSection({ title, calls }: { title: string; calls: readonly CarburettorCall[] }) {
  return (
    <div className="@container">
      <div className="grid items-center gap-x-8 gap-y-2 @[760px]:grid-cols-[minmax(0,420px)_minmax(0,1fr)] print:grid-cols-[minmax(0,420px)_minmax(0,1fr)]">
        <div className="max-w-[420px]">
          <Chart
            title={title}
            description="Air comes from the airbox at the left, under the slide with its needle, past the butterfly to the engine at the right. The diaphragm and its spring are above, the float bowl with main jet and pilot jet below."
            width={420}
            height={392}
            table={{
              head: ["Number", "Setting", "Value"],
              rows: calls.map((call, i) => [i + 1, call.name, call.text]),
            }}
          >
            <CarburettorLines />
            {calls.map((call, i) => {
              const [x, y, toX, toY] = PLACES[call.at];
              return (
                <g key={call.at}>
                  <path d={`M${x} ${y}L${toX} ${toY}`} className="stroke-brass" strokeWidth="1.2" />
                  <circle cx={toX} cy={toY} r="2.4" className="fill-brass" />
                  <circle cx={x} cy={y} r="12" className="fill-sheet stroke-brass" strokeWidth="1.5" />
                  <text
                    x={x}
                    y={y + 5}
                    textAnchor="middle"
                    className="fill-ink font-bold font-mono text-[14px]"
                  >
                    {i + 1}
                  </text>
                </g>
              );
            })}
          </Chart>
        </div>
        <ol className="min-w-0 max-w-[520px]">
          {calls.map((call, i) => (
            <li
              key={call.at}
              className="grid grid-cols-[2rem_minmax(0,1fr)_auto] items-baseline gap-x-2 border-hair border-b py-[7px]"
            >
              <span aria-hidden="true" className="font-mono text-brass">
                {i + 1}
              </span>
              <span>{call.name}</span>
              <span className="text-end font-mono">{call.shown ?? call.text}</span>
            </li>
          ))}
        </ol>
      </div>
    </div>
  );
}
