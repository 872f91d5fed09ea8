/**
 * How one thing is measured, in another language than English: the procedures' own texts (lib/domain/procedures) are English, and each
 * list here has as many entries as theirs, in the same order. Labels are those of the drawing.
 */
export interface SpokenProcedure {
  readonly name: string;
  readonly instrument: string;
  readonly resolution: string;
  readonly readings: string;
  readonly before?: readonly string[];
  readonly steps: readonly string[];
  readonly cautions: readonly string[];
  readonly labels: readonly string[];
}

export const FUEL =
  "Bensindamp brenner. Arbeid der lufta er i bevegelse, unna flammer, gnister og varmeovner, fang opp det som renner ut i en lukket metallkanne, og tørk opp med en gang.";
export const RUNNING =
  "En motor som går trenger frisk luft eller avsug: eksos dreper uten å lukte. Hender, hår og ermer holdes unna kjede, vifte og hjul; en annen person står klar av sykkelen.";
export const HOT =
  "Eksosrøret brenner i en halv time etter kjøring: la det bli kaldt, eller bruk hansker som tåler varme.";
export const MAKER =
  "Sier produsentens håndbok eller loven på stedet noe annet, er det de som gjelder, og ikke dette arket.";
