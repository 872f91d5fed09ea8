/** Parts of a bike as papers describe them: names, and what is said of each. */
export const describedPart = {
  en: {
    name: {
      jet: "Drilled or reamed jet",
      spring: "Slide spring",
      liftHoles: "Lift holes",
      openings: "Airbox openings",
      filter: "Air filter",
      silencer: "Silencer",
    },
    change: { delivered: "delivered", cut: "cut", exchanged: "exchanged" },
    none: "none",
    free: "{mm} free",
    wire: "wire {mm}",
    coils: "{count} coils",
    breather: "{mm} from the breather",
    flow: "{flow} l/min",
    flowAt: "{flow} l/min at {loss} Pa",
  },
  nb: {
    name: {
      jet: "Oppboret dyse",
      spring: "Sleidefjær",
      liftHoles: "Løftehull",
      openings: "Åpninger i luftboksen",
      filter: "Luftfilter",
      silencer: "Lyddemper",
    },
    change: { delivered: "original", cut: "kappet", exchanged: "byttet" },
    none: "ingen",
    free: "{mm} uten last",
    wire: "tråd {mm}",
    coils: "{count} vindinger",
    breather: "{mm} fra lufteslangen",
    flow: "{flow} l/min",
    flowAt: "{flow} l/min ved {loss} Pa",
  },
} as const;
