/** What a rider told of a bike, as a quote repeats it: where in the throttle, how, and what it did. */
export const observed = {
  en: {
    said: "{place}, {condition}, {engine}: {sign}",
    place: {
      closed: "closed throttle",
      eighth: "an eighth of throttle",
      quarter: "a quarter of throttle",
      half: "half throttle",
      threeQuarter: "three quarters of throttle",
      full: "full throttle",
    },
    condition: {
      steady: "steady",
      snap: "opened quickly",
      decelerating: "slowing down",
      idle: "idling",
      starting: "starting",
    },
    engine: { cold: "engine cold", hot: "engine hot" },
    sign: {
      rich: "too rich",
      lean: "too lean",
      hesitates: "hesitates",
      surges: "surges",
      floods: "floods",
      good: "good",
    },
  },
  nb: {
    said: "{place}, {condition}, {engine}: {sign}",
    place: {
      closed: "lukket gass",
      eighth: "en åttedels gass",
      quarter: "kvart gass",
      half: "halv gass",
      threeQuarter: "trekvart gass",
      full: "full gass",
    },
    condition: {
      steady: "jevn gass",
      snap: "rask gass",
      decelerating: "på vei ned i fart",
      idle: "på tomgang",
      starting: "ved start",
    },
    engine: { cold: "kald motor", hot: "varm motor" },
    sign: {
      rich: "for fet",
      lean: "for mager",
      hesitates: "nøler",
      surges: "går ujevnt",
      floods: "drukner",
      good: "bra",
    },
  },
} as const;
