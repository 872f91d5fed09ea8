import type { LibraryEntry } from "../entry";
import { access, BRASS, CROSS, caution, check, FUEL, operation, place } from "./write";

const RACKS = ["twin-rack", "four-rack"] as const;
const HOME = [
  "Every rubber home, clamps even and tight",
  "All vent, overflow and vacuum hoses on, none kinked",
  "Throttle snaps shut by itself at both steering locks",
  "Choke opens and closes fully",
];

/** Carburettors out on the bench, single and as a rack. Minutes are starting figures: common practice, no source. */
export const OUT: readonly LibraryEntry[] = [
  access("out", "single-out", "Carburettor out on the bench", [14, 18], {
    openAs: "Take out: carburettor",
    closeAs: "Put back: carburettor",
    families: ["slide", "cv-side", "cv-down"],
    fuelOpen: true,
    needs: ["tank-off"],
    closingChecks: HOME,
    cautions: [FUEL],
    tools: [CROSS],
    torques: [place("Manifold clamps")],
    recheck: { what: "Manifold clamps, idle and a look for fuel", km: 300, days: 30 },
  }),
  access("out", "rack-out", "Carburettors out as a rack", [18, 22], {
    openAs: "Take out: carburettors as a rack",
    closeAs: "Put back: carburettors as a rack",
    families: RACKS,
    fuelOpen: true,
    needs: ["tank-off", "airbox-back"],
    closingChecks: HOME,
    cautions: [FUEL, "Lift the rack by both outer bodies: the link between them bends."],
    tools: [CROSS],
    torques: [place("Manifold clamps")],
    threadlocker: ["screws of the throttle link"],
    recheck: { what: "Manifold clamps, balance and idle", km: 300, days: 30 },
  }),
  operation(
    "out",
    "strip-rack",
    "Take jets, needles and screws out, each to its tray",
    25,
    ["rack-bowls-off"],
    "One carburettor at a time. Count each mixture screw's turns down to its seat first, and write them down.",
    {
      families: RACKS,
      holdPoints: [{ kind: "signature", name: "Jet numbers, clips and screw turns of each written down" }],
      cautions: [BRASS],
      tools: ["Jet driver", "Pilot jet driver", "Marked trays, one a carburettor"],
    },
  ),
  operation(
    "out",
    "clean-rack",
    "Clean bodies, passages and jets of the rack",
    55,
    ["rack-bowls-off", "rack-caps-off"],
    "Every passage blown through and seen to be open. No wire in a jet.",
    {
      families: RACKS,
      after: ["strip-rack", "look-diaphragms-rack"],
      cautions: ["Solvent: gloves, glasses, air. Diaphragms and rubber parts stay out of it."],
      holdPoints: [{ kind: "signature", name: "Light seen through every jet and passage" }],
    },
  ),
  operation(
    "out",
    "bench-balance",
    "Set throttle plates or slides alike on the bench",
    10,
    ["rack-out"],
    "By a drill shank or a wire of one thickness under each, to the same drag.",
    {
      families: RACKS,
      after: ["strip-rack", "clean-rack", "renew-valves-rack", "set-floats-twin", "set-floats-four"],
      holdPoints: [{ kind: "signature", name: "Each opens and closes alike" }],
      tools: ["Drill shank or wire, 0.5 to 1 mm"],
    },
  ),
  operation(
    "out",
    "clean-single",
    "Take apart, clean and measure the carburettor",
    55,
    ["single-out"],
    "Count the mixture screw's turns to its seat first. Every passage blown through; no wire in a jet.",
    {
      families: ["slide", "cv-side", "cv-down"],
      cautions: [BRASS, "Solvent: gloves, glasses, air. Diaphragm and rubber parts stay out of it."],
      holdPoints: [
        { kind: "signature", name: "Jet numbers, clip and screw turns written down" },
        { kind: "signature", name: "Light seen through every jet and passage" },
      ],
      tools: [CROSS, "Jet driver", "Parts tray"],
    },
  ),
  caution("out", "solvent", "Solvent: gloves, glasses, air. Diaphragms and rubber parts stay out of it."),
  caution("out", "link-bends", "Lift the rack by both outer bodies: the link between them bends.", RACKS),
  check("out", "choke-full", "Choke opens and closes fully"),
  check("out", "o-rings-new", "Fuel pipes between the bodies on new O-rings", RACKS),
];
