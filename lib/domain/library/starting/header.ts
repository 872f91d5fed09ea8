import type { LibraryEntry } from "../entry";
import { access, caution, check, operation, place } from "./write";

/** Header and silencer. Minutes are starting figures: common practice, no source. */
export const HEADER: readonly LibraryEntry[] = [
  access("header", "silencer-off", "Silencer off", [8, 10], {
    closingChecks: ["Joint sealed, hanger not strained", "Clear of swingarm, hoses and cables"],
    cautions: ["Hot exhaust: let it cool, or gloves."],
    torques: [place("Silencer clamp"), place("Silencer hanger")],
    recheck: { what: "Silencer clamp and hanger", km: 300, days: 30 },
  }),
  access("header", "header-off", "Header off", [14, 18], {
    needs: ["silencer-off"],
    closingChecks: [
      "New gasket seated in the port",
      "Nuts drawn up evenly",
      "No hiss at the port, engine cold",
    ],
    cautions: [
      "Hot exhaust: let it cool, or gloves.",
      "Header studs seize and shear: penetrating oil and time, no force on a cold nut.",
    ],
    tools: ["Penetrating oil"],
    torques: [place("Header nuts")],
    recheck: { what: "Header nuts and a look for soot at the port", km: 300, days: 30 },
  }),
  operation(
    "header",
    "header-weld",
    "Open the weld inside the header",
    30,
    ["header-off"],
    "About 1 mm of weld stays standing. Further only once weld is added outside.",
    {
      makesSwarf: true,
      makes: ["headerWeldMm"],
      holdPoints: [
        {
          kind: "reading",
          name: "Weld left standing",
          unit: "mm",
          low: 1,
          high: 10,
          step: 0.5,
          measures: "headerWeldMm",
        },
      ],
      cautions: ["Grinding: glasses, ears, mask. No fuel open in the room."],
      tools: ["Die grinder, long burr", "Inside caliper"],
    },
  ),
  caution("header", "hot-exhaust", "Hot exhaust: let it cool, or gloves."),
  check("header", "port-sealed", "No hiss at the port, engine cold"),
];
