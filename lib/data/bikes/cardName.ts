/** A model card in one line: make, model and its years. */
export function cardName(card: {
  make: string;
  model: string;
  yearFrom: number | null;
  yearTo: number | null;
}): string {
  const { yearFrom: from, yearTo: to } = card;
  const years =
    from !== null && to !== null
      ? from === to
        ? `${from}`
        : `${from} to ${to}`
      : from !== null
        ? `from ${from}`
        : to !== null
          ? `until ${to}`
          : "";
  return `${card.make} ${card.model}${years && `, ${years}`}`;
}
