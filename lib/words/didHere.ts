/** What a package did on a shop's bikes, as a quote tells it: a record, never a promise. */
export const didHere = {
  en: {
    title: "What “{name}” did on bikes here",
    note: "Read before the work and after it. No promise: yours may do otherwise.",
    one: "On one bike: {what} {change}{under}",
    many: "On {bikes} bikes: {what} {change} in the middle, from {low} to {high}{under}",
    kind: {
      noise: "noise",
      starting: "cranking for a cold start",
      idle: "unsteadiness of the idle",
      fuel: "fuel use",
      power: "peak power",
      lambda: "lambda",
    },
    unit: { noise: "dB(A)", starting: "s", idle: "rpm", fuel: "l/100 km", power: "kW" },
    under: { distance: "{metres} m away", speed: "{rpm} rpm" },
  },
  nb: {
    title: "Hva «{name}» har gjort på sykler her",
    note: "Målt før arbeidet og etter. Ikke noe løfte: din kan bli annerledes.",
    one: "På én sykkel: {what} {change}{under}",
    many: "På {bikes} sykler: {what} {change} i midten, fra {low} til {high}{under}",
    kind: {
      noise: "støy",
      starting: "tid på starteren ved kaldstart",
      idle: "ujevn tomgang",
      fuel: "bensinforbruk",
      power: "største effekt",
      lambda: "lambda",
    },
    unit: { noise: "dB(A)", starting: "s", idle: "o/min", fuel: "l/100 km", power: "kW" },
    under: { distance: "{metres} m unna", speed: "{rpm} o/min" },
  },
};
