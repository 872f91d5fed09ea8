import type { CardScreen } from "./shown";

const dated = <T extends Date | null>(at: T): T => (at === null ? at : new Date(at)) as T;

/** A card's view as the server has it: moments cross as text. */
export function withDates(view: CardScreen): CardScreen {
  const { card, step } = view;
  return {
    ...view,
    card: {
      ...card,
      running: card.running && { ...card.running, startedAt: dated(card.running.startedAt) },
      others: card.others.map((one) => ({ ...one, since: dated(one.since) })),
    },
    step: step && {
      ...step,
      doneAt: dated(step.doneAt),
      notes: step.notes.map((note) => ({ ...note, at: dated(note.at) })),
    },
  };
}
