/** Countries whose ordinary paper is Letter. Common practice. */
const LETTER = new Set(["US", "CA", "MX", "PH", "CL", "CO"]);

export const paperOf = (country: string): "a4" | "letter" => (LETTER.has(country) ? "letter" : "a4");
