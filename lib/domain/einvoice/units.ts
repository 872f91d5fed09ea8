/** How a line is counted. UN/ECE Recommendation 20: one, hour, millilitre, millimetre, gram. */
const UNIT_CODES: Readonly<Record<string, string>> = {
  each: "C62",
  h: "HUR",
  ml: "MLT",
  mm: "MMT",
  g: "GRM",
};

/** The code of a unit that lines are counted in (UN/ECE Recommendation 20): "C62", one, for what is not measured. */
export const unitCode = (unit: string): string => UNIT_CODES[unit] ?? "C62";
