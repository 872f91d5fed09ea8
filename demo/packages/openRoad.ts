import type { Recipe } from "@/lib/domain/packages/recipe";
import { access, JIS, operation, option, pieces, SINGLE_ACCESSES } from "./parts";

const ROUND = "Main jets, large round";

/** Freer breathing for a big constant-vacuum single: airbox, jet, needle and slide as one recipe. */
export const OPEN_ROAD: Recipe = {
  format: "throttlewright-recipe",
  version: 1,
  groups: [
    { key: "air", name: "Airbox", choose: "at most one" },
    { key: "fuel", name: "Carburettor", choose: "any" },
    { key: "exhaust", name: "Exhaust", choose: "any" },
    { key: "care", name: "Care", choose: "any" },
  ],
  options: [
    option("opening", "air", "Airbox opening, 48 mm", "One round opening, kept 60 mm clear of the breather. Fuller from half throttle; more intake noise.", ["cut-opening"], {
      changes: [{ setting: "airboxOpeningMm", change: "set", value: 48 }],
      cautions: ["The intake is louder, and the cut cannot be undone without a new box."],
      preset: true,
      roadUse: true,
    }),
    option("snorkel", "air", "Snorkel out only", "The snorkel comes out and the box stays whole: a small step that can be undone.", ["snorkel-out"], {
      changes: [{ setting: "snorkelFitted", change: "set", value: 0 }],
      roadUse: true,
    }),
    option("main", "fuel", "Main jet to suit", "The jet that the air you ride in asks for, with screw and idle set to go with it.", ["fit-main", "set-idle"], {
      parts: [{ kind: "jet", setting: "mainJet", family: ROUND, quantityMilli: 1000 }],
      changes: [
        { setting: "mainJet", change: "computed" },
        { setting: "mixtureScrewTurns", change: "computed" },
        { setting: "idleSpeedRpm", change: "set", value: 1400 },
      ],
      preset: true,
      roadUse: true,
    }),
    option("needle", "fuel", "Needle reshaped and reseated", "The needle's shoulder is eased and it sits to a measured height: cleaner at quarter throttle.", ["needle-seat"], {
      changes: [
        { setting: "needleSeatMm", change: "set", value: 3.15 },
        { setting: "clipPosition", change: "computed" },
      ],
      preset: true,
      roadUse: true,
    }),
    option("lift", "fuel", "Slide lift holes, 2 × 2.8 mm", "Two holes let the slide rise in less than half the time: a quicker answer to the grip.", ["drill-lift"], {
      changes: [
        { setting: "liftHoleCount", change: "set", value: 2 },
        { setting: "liftHoleMm", change: "set", value: 2.8 },
      ],
      preset: true,
    }),
    option("weld", "exhaust", "Header weld dressed", "The bead inside the header is taken down; a millimetre stays. We promise no power from it.", ["dress-weld"], {
      changes: [{ setting: "headerWeldMm", change: "set", value: 1 }],
      roadUse: true,
    }),
    option("silencer", "exhaust", "Quiet freer silencer", "A freer silencer with a quiet core, left and right mount.", ["fit-silencer"], {
      parts: [pieces("SIL-Q40", 1)],
      cautions: ["Noise rules apply to road use: keep the paper that came with it."],
      roadUse: true,
    }),
    option("breather", "care", "Breather filter renewed", "Due with every air filter.", ["renew-breather"], { preset: true }),
    option("air-filter", "care", "Air filter renewed", "New oiled foam, cage cleaned.", ["renew-filter"], { parts: [pieces("AF-640", 1)] }),
  ],
  operations: [
    operation("cut-opening", "Cut the airbox opening, 48 mm", "Centre 60 mm from the breather spigot. Hole saw, slow. Deburr, vacuum the box, trim the edge.", 28, ["airbox-lid"], {
      parts: [{ kind: "part", code: "EDGE-3", quantityMilli: 155_000 }],
      holdPoints: [{ kind: "reading", name: "Opening diameter", unit: "mm", low: 47, high: 49, step: 0.5 }],
      cautions: ["Eyes and lungs: goggles and mask. Block the carburettor mouth before cutting."],
      tools: ["Hole saw 48 mm", "Deburring blade"],
    }),
    operation("snorkel-out", "Take the snorkel out", "Twist it free; label it and hand it back.", 5, ["airbox-lid"]),
    operation("fit-main", "Fit the main jet", "Check the bowl for water and dirt first. Snug is not tight.", 10, ["bowl"], {
      grade: "bench",
      parts: [pieces("OR-BOWL-40", 1)],
      holdPoints: [{ kind: "signature", name: "Jet number read aloud off the part" }],
      tools: [JIS, "Jet driver 6 mm"],
    }),
    operation("drill-lift", "Open the slide lift holes to 2 × 2.8 mm", "Slide in the soft jig, reamer by hand, no swarf under the diaphragm.", 20, ["slide-cover"], {
      grade: "bench",
      holdPoints: [{ kind: "reading", name: "Lift hole", unit: "mm", low: 2.75, high: 2.85, step: 0.05 }],
      cautions: ["A slide that sticks is a no-ride fault: blow out and drop-test it twice."],
      tools: ["Slide jig", "Hand reamer 2.8 mm"],
    }),
    operation("needle-seat", "Reshape and reseat the needle", "Ease the shoulder on the fine stone, polish, set the height with shims.", 35, ["slide-cover"], {
      grade: "bench",
      after: ["drill-lift"],
      parts: [pieces("SHIM-N", 1), pieces("SCR-J4x12", 2), { kind: "part", code: "LOCK-M", quantityMilli: 200 }],
      holdPoints: [{ kind: "reading", name: "Needle seat height", unit: "mm", low: 3, high: 3.3, step: 0.05 }],
      tools: ["Depth gauge 0.01 mm", "Fine stone"],
    }),
    operation("dress-weld", "Dress the header weld", "Down to 1 mm, no further: beyond that, weld must first be added outside.", 45, ["header"], {
      grade: "fabrication",
      parts: [pieces("GSK-EX-38", 1)],
      holdPoints: [{ kind: "reading", name: "Weld left standing", unit: "mm", low: 1, high: 1.5, step: 0.1 }],
      cautions: ["Grinding: away from the fuel bench, tank and carburettor out of the room. Eyes, lungs, ears."],
      tools: ["Die grinder", "Carbide burr"],
    }),
    operation("fit-silencer", "Fit the quiet silencer", "Paste on the joint, clamp square, 20 mm clear of the tyre at full travel.", 40, ["side-covers"], {
      after: ["dress-weld"],
      parts: [{ kind: "part", code: "PASTE-EX", quantityMilli: 6_000 }],
      holdPoints: [{ kind: "signature", name: "Clearance and mount checked" }],
    }),
    operation("renew-breather", "Renew the breather filter", "New filter, hose end dry, arrow down.", 6, ["side-covers"], {
      parts: [pieces("BF-20", 1), { kind: "part", code: "HOSE-V4", quantityMilli: 180_000 }],
    }),
    operation("renew-filter", "Renew the air filter", "Oil it evenly, squeeze out, grease the rim.", 8, ["airbox-lid"], { after: ["cut-opening", "snorkel-out"] }),
    operation("set-idle", "Set mixture screw and idle, hot", "Count the turns out, then by ear and lambda within half a turn. Idle down again to 1400.", 12, ["running"], {
      grade: "bench",
      after: ["fit-main", "needle-seat", "drill-lift", "dress-weld", "fit-silencer"],
      holdPoints: [{ kind: "reading", name: "Idle, hot", unit: "rpm", low: 1350, high: 1450, step: 50 }],
      tools: ["Lambda probe", "D-head screw key"],
    }),
  ],
  accesses: [
    ...SINGLE_ACCESSES,
    access("header", "Header pipe off", 14, 18, {
      closingChecks: ["New gasket in, nuts even", "No leak, engine cold-started"],
      cautions: ["Let it cool: hot exhaust."],
      tools: ["12 mm socket, long", "Penetrating oil"],
    }),
  ],
  rules: [
    { kind: "needs", option: "opening", anyOf: ["main"], why: "A freer airbox runs lean on the delivered main jet." },
    { kind: "needs", option: "silencer", anyOf: ["main"], why: "A freer silencer asks for the jet to be looked at." },
    { kind: "warns", option: "main", without: "opening", why: "A bigger main jet belongs with a freer airbox." },
    { kind: "warns", option: "needle", with: "opening", without: "main", why: "A reshaped needle on the delivered main jet wants only the snorkel out." },
    { kind: "warns", option: "weld", without: "main", why: "A freer header on the delivered jet runs lean at full throttle." },
    { kind: "only when", option: "lift", fact: "carburettorType", op: "=", value: "constant vacuum", why: "Lift holes are for a slide that rises by vacuum." },
    { kind: "only when", option: "opening", fact: "displacementCc", op: ">=", value: 500, why: "48 mm is too much for a smaller engine." },
    { kind: "only when", option: "main", fact: "carburettors", op: "=", value: 1, why: "This recipe is for a single carburettor." },
  ],
};
