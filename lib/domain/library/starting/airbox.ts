import type { LibraryEntry } from "../entry";
import { access, caution, check, operation, place } from "./write";

/** Airbox, filter, snorkel and breathers. Minutes are starting figures: common practice, no source. */
export const AIRBOX: readonly LibraryEntry[] = [
  access("airbox", "airbox-lid-off", "Airbox lid off", [3, 3], {
    needs: ["seat-off"],
    closingChecks: ["Lid seal seated all round", "Every lid screw and clip back"],
    cautions: ["Lid screws bite in plastic or in brass inserts: start each one by hand."],
  }),
  access("airbox", "airbox-back", "Airbox unbolted and drawn back", [7, 9], {
    openAs: "Unbolt and draw back: airbox",
    closeAs: "Bolt on again: airbox",
    needs: ["seat-off"],
    closingChecks: [
      "Airbox rubbers home on every carburettor, none folded in",
      "Crankcase breather on, with no kink",
    ],
    cautions: ["Cold airbox rubbers crack: warm them before they are bent."],
    torques: [place("Airbox bolts")],
  }),
  operation(
    "airbox",
    "clean-filter",
    "Clean the air filter",
    12,
    ["airbox-lid-off"],
    "By the filter's own instructions; dry and whole before it goes back. The breather's filter with it.",
    {
      holdPoints: [{ kind: "signature", name: "Filter whole, sealed all round; breather filter cleaned" }],
      inspects: ["filters"],
    },
  ),
  operation(
    "airbox",
    "airbox-opening",
    "Measure the airbox opening",
    6,
    ["airbox-lid-off"],
    "Across the opening, twice at right angles; well clear of the carburettor's breather.",
    {
      holdPoints: [
        { kind: "reading", name: "Airbox opening", unit: "mm", step: 1, measures: "airboxOpeningMm" },
      ],
      tools: ["Caliper"],
    },
  ),
  caution(
    "airbox",
    "opening-and-breather",
    "Keep a cut opening away from the carburettor's breather: it reads what the opening draws.",
  ),
  caution(
    "airbox",
    "swarf-airbox",
    "Swarf goes straight into the engine: close the inlets before anything is cut.",
  ),
  check("airbox", "lid-seal", "Airbox lid seal seated all round"),
];
