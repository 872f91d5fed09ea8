import { markOf, type ScreenView } from "./change";

/** Most that is kept of screens, in letters: a draft's are about 30,000. */
const MOST = 2_000_000;

/**
 * Screens as they were shown last, by shop and mark, the newest last. An act that was made on one is answered by what it changed
 * there, and the record need not be read before it as well. What is not here any more is read.
 */
const lately = new Map<string, string>();
let letters = 0;

const keyOf = (shopId: string, mark: string) => `${shopId} ${mark}`;

function forget(key: string): void {
  letters -= lately.get(key)?.length ?? 0;
  lately.delete(key);
}

/** A view as a page is given it: plain data with its mark. */
export function shown<V extends ScreenView>(shopId: string, view: V): { view: V; mark: string } {
  const text = JSON.stringify(view);
  const mark = markOf(view);
  const key = keyOf(shopId, mark);
  forget(key);
  if (text.length <= MOST) {
    lately.set(key, text);
    letters += text.length;
  }
  for (const oldest of lately.keys()) {
    if (letters <= MOST) break;
    forget(oldest);
  }
  return { view: JSON.parse(text), mark };
}

/** The view of this mark, if a page of the shop showed it lately. */
export function shownAs(shopId: string, mark: string): ScreenView | null {
  const text = lately.get(keyOf(shopId, mark));
  return text === undefined ? null : JSON.parse(text);
}
