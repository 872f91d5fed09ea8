import type { ThrottlePosition } from "../tuning/rideTypes";

/** How the engine is loaded while it is looked at. */
export type Load = "none" | "light" | "pulling" | "snap" | "overrun";
export const LOAD_WORDS: Readonly<Record<Load, string>> = {
  none: "standing, no load",
  light: "cruising, light load",
  pulling: "pulling, full load",
  snap: "snapped open",
  overrun: "throttle shut, slowing down",
};

/** A sign at one place of the throttle. All of it is common practice, no source. */
export interface SignSeen {
  readonly sign: string;
  /** What it may come from, the likelier first. */
  readonly may: readonly string[];
  /** What it cannot tell. */
  readonly cannot: string;
  /** Procedures that settle it, by id. */
  readonly settle: readonly string[];
}

export interface ObservedPlace {
  readonly throttle: ThrottlePosition;
  readonly load: Load;
  /** How to bring the engine there, and how to stop it so that the sign is of this place. */
  readonly how: string;
  readonly signs: readonly SignSeen[];
}

/** What may be seen, heard and felt of an engine, by throttle position and load. Source: common practice. */
export const OBSERVED: readonly ObservedPlace[] = [
  {
    throttle: "closed",
    load: "none",
    how: "Warm, choke off, idling for two minutes on a stand, in fresh air.",
    signs: [
      {
        sign: "The idle hangs before it comes down",
        may: [
          "lean pilot mixture",
          "air leak at a boot or a hose",
          "slide or cable that sticks",
          "idle set too high",
        ],
        cannot:
          "It does not tell a lean mixture from an air leak: spray nothing, look at boots and hoses first.",
        settle: ["mixture-screw-count", "slide-and-guide-play"],
      },
      {
        sign: "It dies down and stops, black breath at the tailpipe",
        may: ["rich pilot mixture", "enrichener that does not close", "high float level"],
        cannot: "Soot of a cold start looks the same: judge warm only.",
        settle: ["float-height-by-gauge", "mixture-screw-count"],
      },
      {
        sign: "One cylinder's header stays cooler",
        may: ["plug or cap", "blocked pilot of that carburettor", "imbalance", "tight valve"],
        cannot: "It tells which cylinder works less, not why.",
        settle: ["vacuum-balance", "valve-clearance"],
      },
    ],
  },
  {
    throttle: "closed",
    load: "overrun",
    how: "Roll off from a good speed in a middle gear, throttle shut.",
    signs: [
      {
        sign: "It pops in the silencer",
        may: [
          "lean pilot mixture",
          "air leak in the exhaust's joints",
          "air valve of the carburettor torn or missing",
        ],
        cannot: "An exhaust that draws air pops at any mixture: feel the joints by soot marks, cold.",
        settle: ["mixture-screw-count", "diaphragm-by-light"],
      },
    ],
  },
  {
    throttle: "eighth",
    load: "light",
    how: "Hold a low steady speed on the flat for a minute.",
    signs: [
      {
        sign: "It surges: pulls and lets go by itself",
        may: ["lean pilot or start of the needle", "air leak", "worn slide that flutters"],
        cannot: "A slack chain or a worn cush drive feels like it too.",
        settle: ["slide-and-guide-play", "needle-at-stations"],
      },
      {
        sign: "It burbles, smells of fuel, clears when opened",
        may: ["rich pilot or needle jet worn wide", "high float level", "dirty air filter"],
        cannot: "It does not tell the needle from its jet: measure both.",
        settle: ["needle-jet-bore", "needle-at-stations", "float-height-by-gauge"],
      },
    ],
  },
  {
    throttle: "quarter",
    load: "light",
    how: "On a closed or empty road: steady for two minutes, then clutch in, engine off by the switch, roll to a safe stop. Look at the plug without idling.",
    signs: [
      {
        sign: "Plug's insulator chalk white, with specks",
        may: ["lean on the needle", "air leak", "plug too hot for the engine"],
        cannot:
          "Colour follows fuel, plug and oil as well. A new plug needs more than one ride before it colours.",
        settle: ["needle-at-stations", "spring-length-and-rate"],
      },
      {
        sign: "Plug dry black and sooty",
        may: ["rich on the needle", "needle jet worn", "weak spark", "short rides, never hot"],
        cannot: "A plug that is too cold for the engine soots at the right mixture.",
        settle: ["needle-jet-bore"],
      },
    ],
  },
  {
    throttle: "half",
    load: "snap",
    how: "From a steady half, roll on briskly in a middle gear.",
    signs: [
      {
        sign: "A flat moment, then it goes",
        may: ["slide rises too fast and leans out", "lean on the needle", "cut spring or widened lift holes"],
        cannot: "Too slow a rise feels flat too: it is soft there, not breathless.",
        settle: ["spring-length-and-rate", "hole-by-drill-shank", "diaphragm-by-light"],
      },
      {
        sign: "Slow, heavy, then soot",
        may: ["rich on the needle", "torn diaphragm: the slide hangs low", "blocked lift hole"],
        cannot: "A torn diaphragm cannot be jetted away: hold it to the light first.",
        settle: ["diaphragm-by-light"],
      },
    ],
  },
  {
    throttle: "threeQuarter",
    load: "pulling",
    how: "Long hill or a dyno: hold it for as long as it is safe and legal, and no longer.",
    signs: [
      {
        sign: "It runs out of breath, clears when eased a little",
        may: ["lean main", "fuel does not keep up: strainer, tap, vent of the tank", "low float level"],
        cannot: "Lean main and starved bowl look alike: test the flow before a jet is changed.",
        settle: ["float-height-by-tube", "float-height-by-gauge"],
      },
      {
        sign: "It goes flat and rough, cleaner when it is colder",
        may: ["rich main", "blocked filter or snorkel"],
        cannot: "A weak coil breaks up under load in the same way.",
        settle: ["opening-and-breather"],
      },
    ],
  },
  {
    throttle: "full",
    load: "pulling",
    how: "Full load for some seconds, on a dyno or a closed course only; clutch in and switch off at once.",
    signs: [
      {
        sign: "It knocks, or the plug shows bright specks",
        may: ["far too lean", "too much advance", "poor fuel", "hot spots"],
        cannot: "Stop. Nothing is judged further by the plug: it is a warning and no reading.",
        settle: [],
      },
      {
        sign: "A thin dark ring low on the insulator",
        may: ["main near enough, as far as a plug can tell"],
        cannot: "It does not tell one jet size from the next: a wideband or a dyno does.",
        settle: [],
      },
    ],
  },
];

/** Said with every photo of a plug: what it is for. */
export const PHOTO_LIMITS =
  "A photo keeps how it looked, so that two can be laid beside each other. Light, camera and fuel change the colour: no mixture is judged from a photo, and the product computes nothing from one.";

/** What a pair of photos may show. */
export const PAIR_SUBJECTS = ["plug", "header", "tailpipe", "slide", "other"] as const;
export type PairSubject = (typeof PAIR_SUBJECTS)[number];
export const PAIR_WORDS: Readonly<Record<PairSubject, string>> = {
  plug: "plug",
  header: "header",
  tailpipe: "tailpipe",
  slide: "slide",
  other: "another part",
};
