import type { LibraryEntry } from "../entry";
import { access, BRASS, CROSS, caution, check, FUEL, HEADS, operation, place } from "./write";

const floats = (names: readonly string[]) =>
  names.map((name, at) => ({
    kind: "reading" as const,
    name: name ? `Float height, ${name}` : "Float height",
    unit: "mm",
    low: 3,
    high: 35,
    step: 0.5,
    measures: "floatHeightMm",
    ...(name ? { carburettor: at + 1 } : {}),
  }));
const LOOK = "Look into the bowl: no water, no rust, no white crust";

/** Float bowls: jets, float, float valve. Minutes and limits are starting figures: common practice, no source. */
export const BOWL: readonly LibraryEntry[] = [
  access("bowl", "bowl-off", "Float bowl off", [3, 4], {
    families: ["slide", "cv-side"],
    fuelOpen: true,
    needs: ["swung"],
    closingChecks: [LOOK, "O-ring in its groove", "Two minutes of fuel from the bottle, no drip"],
    cautions: [FUEL, HEADS],
    tools: [CROSS, "Drain cup", "Auxiliary fuel bottle"],
    torques: [place("Bowl screws")],
  }),
  access("bowl", "rack-bowls-off", "Float bowls off, on the bench", [6, 9], {
    openAs: "Take off: float bowls, one after another",
    closeAs: "Put back: float bowls",
    families: ["twin-rack", "four-rack"],
    fuelOpen: true,
    needs: ["rack-out"],
    closingChecks: [
      LOOK,
      "O-ring in its groove in every bowl",
      "Overflow pipes upright, their hoses on",
      "Five minutes of fuel from the bottle on the bench, no drip from any bowl",
    ],
    cautions: [FUEL, HEADS],
    tools: [CROSS, "Marked trays, one a carburettor", "Auxiliary fuel bottle"],
    torques: [place("Bowl screws")],
  }),
  operation(
    "bowl",
    "set-float",
    "Set the float height",
    10,
    ["bowl-off"],
    "Tang just touching the float needle, its spring not pressed in.",
    {
      families: ["slide", "cv-side"],
      after: ["clean-single"],
      holdPoints: floats([""]),
      tools: ["Float gauge"],
    },
  ),
  operation(
    "bowl",
    "set-floats-twin",
    "Set both float heights",
    18,
    ["rack-bowls-off"],
    "Left first, then right to the same figure. Tang just touching, its spring not pressed in.",
    {
      families: ["twin-rack"],
      after: ["strip-rack", "clean-rack", "renew-valves-rack"],
      holdPoints: floats(["left", "right"]),
      tools: ["Float gauge"],
    },
  ),
  operation(
    "bowl",
    "set-floats-four",
    "Set the four float heights",
    32,
    ["rack-bowls-off"],
    "First carburettor first, the others to the same figure. Tang just touching, its spring not pressed in.",
    {
      families: ["four-rack"],
      after: ["strip-rack", "clean-rack", "renew-valves-rack"],
      holdPoints: floats(["first", "second", "third", "fourth"]),
      tools: ["Float gauge"],
    },
  ),
  operation(
    "bowl",
    "renew-valves-rack",
    "Renew float valves and bowl seals",
    25,
    ["rack-bowls-off"],
    "Dry fit first. A drop of fuel, no grease, on the O-rings.",
    { families: ["twin-rack", "four-rack"], after: ["strip-rack", "clean-rack"], cautions: [BRASS] },
  ),
  caution("bowl", "brass-seats", BRASS),
  caution(
    "bowl",
    "float-pin",
    "Float pin posts are cast and break: push the pin out from the side without the head.",
  ),
  check("bowl", "bowl-looked-into", LOOK),
  check("bowl", "bowl-o-ring", "O-ring in its groove"),
  check(
    "bowl",
    "float-even",
    "Float heights alike on all carburettors",
    ["twin-rack", "four-rack"],
    "float-height-by-gauge",
  ),
];
