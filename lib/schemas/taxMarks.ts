/** How a part or a line is taxed where that is not as usual. */
export const TAX_MARK_WORDS = {
  "": "as usual",
  Z: "zero-rated",
  E: "exempt",
  O: "outside the scope of the tax",
} as const;
