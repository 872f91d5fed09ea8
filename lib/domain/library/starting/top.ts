import type { LibraryEntry } from "../entry";
import { access, CROSS, caution, check, HEADS, operation, place } from "./write";

const CV = ["cv-side", "cv-down", "twin-rack", "four-rack"] as const;

/** The tops of carburettors: cap, slide, needle, diaphragm. Minutes are starting figures: common practice, no source. */
export const TOP: readonly LibraryEntry[] = [
  access("top", "cv-cap-off", "Diaphragm cap off", [4, 6], {
    families: ["cv-side", "cv-down"],
    needs: ["tank-off"],
    closingChecks: [
      "Diaphragm's bead in its groove all round, its tab in the notch",
      "Slide rises smoothly by a finger and falls by itself",
      "Small O-ring at the air passage in place",
    ],
    cautions: [
      HEADS,
      "Diaphragm: no screwdriver, no solvent, no pull at its edge. A nick leaks at every rise.",
      "The spring stands under the cap: hold it down while the last screw comes out.",
    ],
    tools: [CROSS],
    torques: [place("Cap screws")],
  }),
  access("top", "slide-out", "Slide out with its cap", [4, 5], {
    openAs: "Take out: slide with its cap",
    closeAs: "Put back: slide with its cap",
    families: ["slide"],
    needs: ["tank-off"],
    closingChecks: [
      "Slide's groove on its pin, cutaway towards the filter",
      "Cap turned home straight, not across its thread",
      "Throttle snaps shut by itself at both steering locks",
    ],
    cautions: ["A slide put in the wrong way round holds the throttle open."],
  }),
  access("top", "rack-caps-off", "Diaphragm caps off, on the bench", [7, 11], {
    openAs: "Take off: diaphragm caps, one after another",
    closeAs: "Put back: diaphragm caps",
    families: ["twin-rack", "four-rack"],
    needs: ["rack-out"],
    closingChecks: [
      "Each bead in its groove, each tab in its notch",
      "Each slide rises alike by a finger and falls by itself",
      "Springs, needles and slides back in their own bodies",
    ],
    cautions: [
      HEADS,
      "Slides, needles and springs are run in with their bodies: mark which is from which.",
      "Diaphragm: no screwdriver, no solvent, no pull at its edge. A nick leaks at every rise.",
    ],
    tools: [CROSS, "Marked trays, one a carburettor"],
    torques: [place("Cap screws")],
  }),
  operation(
    "top",
    "look-diaphragm",
    "Look through the diaphragm and the slide",
    6,
    ["cv-cap-off"],
    "Stretch it gently against a light all round. Feel the slide for play and scores.",
    {
      families: ["cv-side", "cv-down"],
      inspects: ["slideGuides"],
      holdPoints: [
        {
          kind: "reading",
          name: "Points of light through the diaphragm",
          low: 0,
          high: 0,
          step: 1,
          measures: "diaphragmLights",
        },
      ],
      tools: ["Lamp"],
    },
  ),
  operation(
    "top",
    "look-diaphragms-rack",
    "Look through every diaphragm and slide",
    12,
    ["rack-caps-off"],
    "Stretch each gently against a light all round. Feel each slide for play and scores.",
    {
      families: ["twin-rack", "four-rack"],
      inspects: ["slideGuides"],
      holdPoints: [{ kind: "signature", name: "No light through any diaphragm, no slide scored" }],
      tools: ["Lamp"],
    },
  ),
  caution("top", "choke-fitting", "The plastic nut of the choke strips: fingers first, no pliers.", [
    "slide",
    "cv-side",
  ]),
  check(
    "top",
    "diaphragm-seated",
    "Diaphragm's bead in its groove all round, its tab in the notch",
    CV,
    "diaphragm-by-light",
  ),
  check("top", "slide-falls", "Slide rises smoothly by a finger and falls by itself", CV),
];
