interface Years {
  readonly yearFrom: number | null;
  readonly yearTo: number | null;
}

/** The years of a model in words; nothing where none are known. */
export function cardYears({ yearFrom: from, yearTo: to }: Years): string {
  if (from !== null && to !== null) return from === to ? `${from}` : `${from} to ${to}`;
  if (from !== null) return `from ${from}`;
  return to !== null ? `until ${to}` : "";
}

/** A model card in one line: make, model and its years. */
export function cardName(card: Years & { make: string; model: string }): string {
  return [`${card.make} ${card.model}`, cardYears(card)].filter(Boolean).join(", ");
}
