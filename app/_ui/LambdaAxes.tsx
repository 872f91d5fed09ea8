"use client";

export interface LambdaAxesProps {
  unit: string;
  top: number;
  floor: number;
  /** Heights of the ticks at the side, with their words; and shares of the width, with theirs. */
  side: readonly (readonly [y: number, word: string])[];
  foot: readonly (readonly [at: number, word: string])[];
}

/** The rules behind a lambda drawing. */
export function LambdaRules({ top, floor, side, foot }: LambdaAxesProps) {
  return (
    <g className="stroke-hair">
      {side.map(([y]) => (
        <line key={y} x1="0" x2="100%" y1={y} y2={y} />
      ))}
      {foot.map(([at]) => (
        <line key={at} x1={`${at * 100}%`} x2={`${at * 100}%`} y1={top - 8} y2={floor + 4} />
      ))}
    </g>
  );
}

/** The words at its rules. */
export function LambdaAxes({ unit, floor, side, foot }: LambdaAxesProps) {
  return (
    <g className="fill-soft font-mono">
      <text x="-34" y="-4">
        {unit}
      </text>
      {side.map(([y, word]) => (
        <text key={y} x="-9" y={y + 4} textAnchor="end">
          {word}
        </text>
      ))}
      {foot.map(([at, word]) => (
        <text
          key={at}
          x={`${at * 100}%`}
          y={floor + 24}
          textAnchor={at === 0 ? "start" : at === 1 ? "end" : "middle"}
        >
          {word}
        </text>
      ))}
    </g>
  );
}
