import { type Plain, withDelta } from "@/lib/domain/delta";
import type { ScreenChange } from "@/lib/schemas/formState";

/** The view that a live screen shows, and its mark: changes are made to it, parts of the page read theirs from it. */
export interface ScreenStore<V> {
  /** The mark of the view that the server drew. */
  readonly drawn: string;
  view(): V;
  mark(): string;
  /** Makes a change; answers false where it is one of another view, and the page has to be asked for. */
  take(change: ScreenChange): boolean;
  subscribe(heard: () => void): () => void;
}

/** A page that was left before a change shows what was before it, when it is come back to. */
let leftBehind = false;

/** Whether pages that were seen before may be out of date; asked once, since they are asked for anew then. */
export function pagesLeftBehind(): boolean {
  const were = leftBehind;
  leftBehind = false;
  return were;
}

export function screenStore<V>(first: V, drawn: string): ScreenStore<V> {
  let [view, mark] = [first, drawn];
  const listeners = new Set<() => void>();
  return {
    drawn,
    view: () => view,
    mark: () => mark,
    take: ({ from, to, delta }) => {
      leftBehind = true;
      if (from !== mark) return false;
      [view, mark] = [withDelta(view as Plain, delta) as V, to];
      for (const heard of listeners) heard();
      return true;
    },
    subscribe: (heard) => {
      listeners.add(heard);
      return () => listeners.delete(heard);
    },
  };
}
