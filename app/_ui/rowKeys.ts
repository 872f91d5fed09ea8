import type { KeyboardEvent, MouseEvent } from "react";

const OPENS = ".row-link";

/** Arrow keys, Home and End move between the rows' own links; Enter is the link's own. */
export function moveBetweenRows(event: KeyboardEvent<HTMLElement>): void {
  if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
  if (!(event.target instanceof HTMLElement) || !event.target.matches(OPENS)) return;
  const links = [...event.currentTarget.querySelectorAll<HTMLElement>(OPENS)];
  const at = links.indexOf(event.target);
  const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: links.length - 1 }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  links[to]?.focus();
}

/**
 * A click anywhere in a row follows its link, unless something else in the row was meant, or words were marked. The link
 * itself is a plain one, so that a list of fifty needs one handler; a click meant for a new tab stays the browser's.
 */
export function opener(go: (href: string) => void) {
  return (event: MouseEvent<HTMLElement>): void => {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    if (!(event.target instanceof Element)) return;
    const meant = event.target.closest("a, button, input, select, label, [popover]");
    if (meant && !meant.matches(OPENS)) return;
    if (!meant && window.getSelection()?.toString()) return;
    const href = event.target.closest("tr")?.querySelector(OPENS)?.getAttribute("href");
    if (!href) return;
    event.preventDefault();
    go(href);
  };
}
