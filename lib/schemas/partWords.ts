export const PART_KINDS = [
  "jet",
  "needle",
  "spring",
  "filter",
  "screw",
  "hose",
  "seal",
  "chemical",
  "other",
] as const;
export const CONVENTIONS = ["", "bore", "flow"] as const;
export const CONVENTION_WORDS: Readonly<Record<(typeof CONVENTIONS)[number], string>> = {
  "": "not a jet",
  bore: "bore in 1/100 mm",
  flow: "rated flow",
};

/** How a part or a line is taxed where that is not as usual. */
export const TAX_MARK_WORDS = {
  "": "as usual",
  Z: "zero-rated",
  E: "exempt",
  O: "outside the scope of the tax",
} as const;
