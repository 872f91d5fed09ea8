import type { QuoteStateName } from "./quotes";

/** What a quote's state is called, and its shape. */
export const QUOTE_WORDS = {
  draft: { word: "Draft", shape: "circle", tone: "soft" },
  sent: { word: "Sent, waiting for a yes", shape: "triangle", tone: "brass" },
  accepted: { word: "Accepted", shape: "filled", tone: "pine" },
  declined: { word: "Declined", shape: "dash", tone: "soft" },
  expired: { word: "Run out", shape: "diamond", tone: "oxide" },
  replaced: { word: "Replaced", shape: "square", tone: "soft" },
} as const satisfies Record<QuoteStateName, { word: string; shape: string; tone: string }>;

export const SEASON_WORDS = {
  summer: "summer",
  autumn: "autumn",
  winter: "winter",
  spring: "spring",
} as const;
