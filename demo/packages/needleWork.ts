import type { Recipe } from "@/lib/domain/packages/recipe";
import { operation, option } from "@/lib/domain/packages/writing";
import { JIS, pieces, SINGLE_ACCESSES } from "./parts";

/** The needle alone, measured and reshaped: for a bike whose airbox stays as it is. */
export const NEEDLE_WORK: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [
    { key: "needle", name: "Needle", choose: "at most one" },
    { key: "care", name: "Care", choose: "any" },
  ],
  options: [
    option(
      "ease",
      "needle",
      "Needle eased and set by shims",
      "The needle is taken down a little where it works from an eighth to half throttle, and its height set anew.",
      ["measure-needle", "ease-needle", "fit-needle", "set-idle"],
      {
        needle: { kind: "reduce", fromMm: 27, toMm: 45, byMm: 0.03, gaugeMm: 2 },
        changes: [
          { setting: "clipPosition", change: "computed" },
          { setting: "mixtureScrewTurns", change: "computed" },
        ],
        preset: true,
        roadUse: true,
      },
    ),
    option("breather", "care", "Breather filter renewed", "Due with every air filter.", ["renew-breather"]),
  ],
  operations: [
    operation(
      "measure-needle",
      "Take the needle out and measure it",
      "Five stations from the shoulder down, with the micrometer; count the shims below and above.",
      15,
      ["slide-cover"],
      {
        grade: "bench",
        holdPoints: [{ kind: "signature", name: "Stations and shims written down" }],
        tools: ["Micrometer 0.01 mm", "Depth gauge 0.01 mm"],
      },
    ),
    operation(
      "ease-needle",
      "Ease the needle",
      "In the lathe's collet, fine paper on a flat stick, wet; polish. The ring gauge tells when to stop.",
      25,
      ["slide-cover"],
      {
        grade: "bench",
        after: ["measure-needle"],
        makes: ["needle"],
        holdPoints: [
          {
            kind: "reading",
            name: "Needle 36 mm below the shoulder",
            unit: "mm",
            low: 2.1,
            high: 2.12,
            step: 0.01,
          },
        ],
        cautions: ["A bent needle wears its jet: roll it on glass before it goes back."],
        tools: ["Ring gauge 2.00 mm", "Micrometer 0.01 mm"],
      },
    ),
    operation(
      "fit-needle",
      "Fit the needle with its shims",
      "Shims below the shoulder set the height; what comes out from below goes above, so that it has no play.",
      12,
      ["slide-cover"],
      {
        grade: "bench",
        after: ["ease-needle"],
        makes: ["clipPosition"],
        parts: [pieces("SHIM-N", 1), pieces("SCR-J4x12", 2)],
        holdPoints: [{ kind: "signature", name: "Needle passes its jet freely all the way" }],
        tools: [JIS],
      },
    ),
    operation(
      "set-idle",
      "Set mixture screw and idle, hot",
      "Count the turns out, then by ear and lambda within half a turn.",
      12,
      ["running"],
      {
        grade: "bench",
        after: ["fit-needle"],
        makes: ["mixtureScrewTurns"],
        holdPoints: [
          {
            kind: "reading",
            name: "Idle, hot",
            unit: "rpm",
            low: 1250,
            high: 1400,
            step: 50,
            measures: "idleSpeedRpm",
          },
        ],
        tools: ["Lambda probe", "D-head screw key"],
      },
    ),
    operation(
      "renew-breather",
      "Renew the breather filter",
      "New filter, hose end dry, arrow down.",
      6,
      ["side-covers"],
      { parts: [pieces("BF-20", 1)] },
    ),
  ],
  accesses: SINGLE_ACCESSES,
  rules: [
    {
      kind: "only when",
      option: "ease",
      fact: "carburettorType",
      op: "=",
      value: "constant vacuum",
      why: "The needle hangs in a slide that rises by vacuum.",
    },
  ],
};
