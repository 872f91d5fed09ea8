import type { Operation } from "@/lib/domain/packages/recipe";
import { JIS, operation, pieces } from "./parts";

/** The operations of the open-road package. */
export const OPEN_ROAD_WORK: readonly Operation[] = [
  operation(
    "cut-opening",
    "Cut the airbox opening, 48 mm",
    "Centre 60 mm from the breather spigot. Hole saw, slow. Deburr, vacuum the box, trim the edge.",
    28,
    ["airbox-lid"],
    {
      parts: [{ kind: "part", code: "EDGE-3", quantityMilli: 155_000 }],
      holdPoints: [{ kind: "reading", name: "Opening diameter", unit: "mm", low: 47, high: 49, step: 0.5 }],
      cautions: ["Eyes and lungs: goggles and mask. Block the carburettor mouth before cutting."],
      tools: ["Hole saw 48 mm", "Deburring blade"],
    },
  ),
  operation("snorkel-out", "Take the snorkel out", "Twist it free; label it and hand it back.", 5, [
    "airbox-lid",
  ]),
  operation(
    "fit-main",
    "Fit the main jet",
    "Check the bowl for water and dirt first. Snug is not tight.",
    10,
    ["bowl"],
    {
      grade: "bench",
      parts: [pieces("OR-BOWL-40", 1)],
      holdPoints: [{ kind: "signature", name: "Jet number read aloud off the part" }],
      tools: [JIS, "Jet driver 6 mm"],
    },
  ),
  operation(
    "drill-lift",
    "Open the slide lift holes to 2 × 2.8 mm",
    "Slide in the soft jig, reamer by hand, no swarf under the diaphragm.",
    20,
    ["slide-cover"],
    {
      grade: "bench",
      holdPoints: [{ kind: "reading", name: "Lift hole", unit: "mm", low: 2.75, high: 2.85, step: 0.05 }],
      cautions: ["A slide that sticks is a no-ride fault: blow out and drop-test it twice."],
      tools: ["Slide jig", "Hand reamer 2.8 mm"],
    },
  ),
  operation(
    "needle-seat",
    "Reshape and reseat the needle",
    "Ease the shoulder on the fine stone, polish, set the height with shims.",
    35,
    ["slide-cover"],
    {
      grade: "bench",
      after: ["drill-lift"],
      parts: [
        pieces("SHIM-N", 1),
        pieces("SCR-J4x12", 2),
        { kind: "part", code: "LOCK-M", quantityMilli: 200 },
      ],
      holdPoints: [
        { kind: "reading", name: "Needle seat height", unit: "mm", low: 3, high: 3.3, step: 0.05 },
      ],
      tools: ["Depth gauge 0.01 mm", "Fine stone"],
    },
  ),
  operation(
    "dress-weld",
    "Dress the header weld",
    "Down to 1 mm, no further: beyond that, weld must first be added outside.",
    45,
    ["header"],
    {
      grade: "fabrication",
      parts: [pieces("GSK-EX-38", 1)],
      holdPoints: [{ kind: "reading", name: "Weld left standing", unit: "mm", low: 1, high: 1.5, step: 0.1 }],
      cautions: [
        "Grinding: away from the fuel bench, tank and carburettor out of the room. Eyes, lungs, ears.",
      ],
      tools: ["Die grinder", "Carbide burr"],
    },
  ),
  operation(
    "fit-silencer",
    "Fit the quiet silencer",
    "Paste on the joint, clamp square, 20 mm clear of the tyre at full travel.",
    40,
    ["side-covers"],
    {
      after: ["dress-weld"],
      parts: [{ kind: "part", code: "PASTE-EX", quantityMilli: 6_000 }],
      holdPoints: [{ kind: "signature", name: "Clearance and mount checked" }],
    },
  ),
  operation(
    "renew-breather",
    "Renew the breather filter",
    "New filter, hose end dry, arrow down.",
    6,
    ["side-covers"],
    {
      parts: [pieces("BF-20", 1), { kind: "part", code: "HOSE-V4", quantityMilli: 180_000 }],
    },
  ),
  operation(
    "renew-filter",
    "Renew the air filter",
    "Oil it evenly, squeeze out, grease the rim.",
    8,
    ["airbox-lid"],
    { after: ["cut-opening", "snorkel-out"] },
  ),
  operation(
    "set-idle",
    "Set mixture screw and idle, hot",
    "Count the turns out, then by ear and lambda within half a turn. Idle down again to 1400.",
    12,
    ["running"],
    {
      grade: "bench",
      after: [
        "fit-main",
        "needle-seat",
        "drill-lift",
        "dress-weld",
        "fit-silencer",
        "cut-opening",
        "snorkel-out",
        "renew-filter",
      ],
      holdPoints: [{ kind: "reading", name: "Idle, hot", unit: "rpm", low: 1350, high: 1450, step: 50 }],
      tools: ["Lambda probe", "D-head screw key"],
    },
  ),
];
