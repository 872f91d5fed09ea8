import type { LibraryEntry } from "../entry";
import { access, caution, check, operation } from "./write";

const SHUT = [
  "tank-off",
  "airbox-back",
  "swung",
  "lifted",
  "single-out",
  "rack-out",
  "bowl-off",
  "cv-cap-off",
  "slide-out",
  "rack-bowls-off",
  "rack-caps-off",
  "header-off",
  "silencer-off",
];
const OUT_FIRST = ["set-float", "clean-single", "clean-filter", "bench-balance"];
const idle = {
  kind: "reading" as const,
  name: "Idle, hot",
  unit: "rpm",
  low: 900,
  high: 1600,
  step: 50,
  measures: "idleSpeedRpm",
};
const FAN = "A standing engine overheats: a fan in front, and breaks.";

/** What is done with the engine running. Minutes and limits are starting figures: common practice, no source. */
export const RUNNING: readonly LibraryEntry[] = [
  access("running", "engine-running", "Engine running, extraction on", [3, 1], {
    openAs: "Start engine, extraction on",
    closeAs: "Stop engine",
    excludes: SHUT,
    cautions: ["Carbon monoxide: extraction on the silencer, doors open.", "Hot exhaust.", FAN],
    tools: ["Extraction hose", "Rev counter", "Fan"],
  }),
  operation(
    "running",
    "vacuum-balance",
    "Balance by vacuum",
    24,
    ["engine-running"],
    "Warm engine. Adjust one to the other, outwards from the one that cannot be adjusted; a blip, then read again.",
    {
      families: ["twin-rack", "four-rack"],
      after: ["bench-balance", "clean-filter"],
      holdPoints: [
        { kind: "reading", name: "Largest difference at idle", unit: "kPa", low: 0, high: 2, step: 0.1 },
      ],
      tools: ["Vacuum gauges, one a carburettor"],
    },
  ),
  operation(
    "running",
    "set-idle",
    "Set mixture screw and idle, hot",
    14,
    ["engine-running"],
    "From the turns that were counted, within half a turn either way; then the idle.",
    {
      after: ["vacuum-balance", ...OUT_FIRST],
      makes: ["mixtureScrewTurns", "idleSpeedRpm"],
      holdPoints: [idle],
    },
  ),
  operation(
    "running",
    "leak-look",
    "Look for fuel and air leaks, hot",
    6,
    ["engine-running"],
    "Fuel at every joint by eye and nose; the idle must not change while a gloved hand presses each rubber.",
    {
      after: ["vacuum-balance", "set-idle"],
      cautions: ["No flammable spray at a hot engine."],
      holdPoints: [{ kind: "signature", name: "No fuel seen outside, idle steady" }],
    },
  ),
  caution("running", "carbon-monoxide", "Carbon monoxide: extraction on the silencer, doors open."),
  caution("running", "overheats", FAN),
  check(
    "running",
    "balance-held",
    "Balance holds after a blip",
    ["twin-rack", "four-rack"],
    "vacuum-balance",
  ),
];
