import {
  circle,
  cut,
  type Drawing,
  edge,
  gauge,
  LETTER,
  line,
  measured,
  middle,
  rect,
  SHEET_WIDTH,
  type Stroke,
  solid,
} from "../procedures/drawing";
import type { Side } from "./damage";

/** Height of the drawing, in units of the sheet. */
export const BIKE_HEIGHT = 212;

const WHEEL_Y = 150;
const [FRONT, REAR] = [66, 252];

/** Spokes of a wheel, from hub to rim. */
const spokes = (x: number, y: number): string =>
  Array.from({ length: 10 }, (_, at) => {
    const turn = (at * Math.PI) / 5;
    const on = (r: number) =>
      [Number((x + r * Math.cos(turn)).toFixed(1)), Number((y + r * Math.sin(turn)).toFixed(1))] as const;
    return line(...on(8), ...on(38));
  }).join("");

/** The left side of an ordinary motorcycle of no make, its front to the left: drawn by hand, for marking places on it. */
const LEFT: readonly Stroke[] = [
  edge(circle(FRONT, WHEEL_Y, 46)),
  edge(circle(FRONT, WHEEL_Y, 38)),
  edge(circle(FRONT, WHEEL_Y, 8)),
  edge(circle(FRONT, WHEEL_Y, 20)),
  edge(circle(REAR, WHEEL_Y, 46)),
  edge(circle(REAR, WHEEL_Y, 38)),
  edge(circle(REAR, WHEEL_Y, 8)),
  { kind: "leader", d: spokes(FRONT, WHEEL_Y) + spokes(REAR, WHEEL_Y) },
  // Fork, with the stanchion above the slider.
  gauge("M69 151L108 44M76 152L113 48"),
  // Front mudguard.
  edge("M34 112C46 92 76 88 98 106"),
  // Headlamp and instruments.
  cut("M82 46C76 50 76 66 84 69L98 66L100 48Z"),
  edge("M98 44L104 30L116 34L112 46Z"),
  // Handlebar, grip, lever and mirror.
  edge("M110 44C116 34 122 32 134 34"),
  solid("M128 31L146 34L146 38L128 36Z"),
  edge("M126 38C118 44 114 46 110 48"),
  edge("M122 34L114 20M104 14C110 8 122 10 122 18C116 22 108 22 104 14Z"),
  // Frame: steering head, down tube, cradle, seat rail.
  edge("M110 50L124 112L136 162L194 162M112 54L196 84L262 74M194 162L198 88"),
  // Tank.
  cut("M114 62C118 44 140 40 164 46C178 50 184 58 184 70L182 76L118 74Z"),
  edge(circle(142, 43, 5)),
  // Seat and tail.
  edge("M180 66C190 74 208 72 224 66C240 60 256 62 268 68L262 78C240 82 200 84 184 78Z"),
  edge("M256 78C266 78 276 82 284 92"),
  solid("M266 68L280 72L278 80L264 78Z"),
  edge("M284 90L296 94L292 112L280 108Z"),
  // Indicators.
  edge(circle(102, 72, 4)),
  edge(circle(268, 92, 4)),
  // Side panel.
  edge("M184 80L212 82L206 104L188 104Z"),
  // Carburettor between tank and engine.
  edge(rect(166, 90, 18, 14)),
  edge("M152 94L166 94M152 102L166 102M184 92L188 92M184 102L188 102"),
  // Cylinder with its fins, cover and crankcase.
  edge("M128 88L152 86L156 112L130 114Z"),
  edge("M124 92L155 90M124 98L156 96M125 104L157 102M127 110L158 108"),
  edge("M126 116L168 112C182 114 192 124 192 138C190 152 178 160 160 160L136 160C126 150 122 130 126 116Z"),
  edge(circle(150, 138, 13)),
  edge(circle(178, 140, 9)),
  // Swing arm, shock and chain.
  edge("M186 138L250 146M186 146L250 154"),
  edge("M206 84L220 138M212 84L226 138M207 94L215 92M209 104L218 102M212 114L220 112M214 124L223 122"),
  { kind: "leader", d: "M178 131L252 142M178 149L252 158" },
  edge(circle(REAR, WHEEL_Y, 14)),
  // Exhaust, whose end shows below the swing arm.
  edge("M190 158L214 154L292 162L294 174L212 168L190 166Z"),
  // Footrest and side stand.
  solid(rect(182, 148, 12, 4)),
  edge("M168 160L156 196L166 196"),
  // The ground.
  { kind: "leader", d: line(8, 197, 312, 197) },
];

const SAID: Readonly<Record<Side, { readonly title: string; readonly front: string }>> = {
  left: { title: "The left side of a motorcycle", front: "Its front is at the left." },
  right: { title: "The right side of a motorcycle", front: "Its front is at the right." },
};

/** Path data seen from behind the sheet: every x counted from the other edge. For M, L, H, C, Q, A and Z, absolute. */
function mirrored(d: string): string {
  return d.replace(/([MLHCQA])([^A-Z]*)/g, (_, command: string, rest: string) => {
    const numbers = rest
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    const turned =
      command === "A"
        ? numbers.map((n, at) => (at % 7 === 5 ? SHEET_WIDTH - n : at % 7 === 4 ? 1 - n : n))
        : command === "H"
          ? numbers.map((n) => SHEET_WIDTH - n)
          : numbers.map((n, at) => (at % 2 === 0 ? SHEET_WIDTH - n : n));
    return `${command}${turned.map((n) => Number(n.toFixed(2))).join(" ")}`;
  });
}

/** A mark on the drawing, by the number that its row has. */
export interface Mark {
  readonly number: number;
  readonly x: number;
  readonly y: number;
}

/** Holds a number of two digits. */
const DISC = 10;

/** One side of a motorcycle with numbered marks on it. */
export function motorcycle(side: Side, marks: readonly Mark[] = []): Drawing {
  const strokes = side === "left" ? LEFT : LEFT.map(({ kind, d }) => ({ kind, d: mirrored(d) }));
  const { title, front } = SAID[side];
  const marked =
    marks.length === 0 ? "Nothing is marked." : `Marked: ${marks.map((m) => m.number).join(", ")}.`;
  return {
    title,
    description: `${front} ${marked}`,
    height: BIKE_HEIGHT,
    strokes: [...strokes, ...marks.map(({ x, y }): Stroke => ({ kind: "disc", d: circle(x, y, DISC) }))],
    labels: marks.map(({ number, x, y }) => measured(middle(x, y + LETTER * 0.36, String(number)))),
  };
}
