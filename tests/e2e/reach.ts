import { expect, type Page } from "@playwright/test";

/** A small phone, a usual one, one held sideways, and a tablet. */
const HANDS = [
  { width: 360, height: 740 },
  { width: 390, height: 844 },
  { width: 844, height: 390 },
  { width: 820, height: 1180 },
] as const;

/**
 * Every control can be tapped at its middle once it is scrolled into view, as focus does it, and every control low on the page
 * at the end of its scroll range, where nothing can be moved away from under a bar any more. The page is resized, not loaded again.
 */
export async function demandTappable(page: Page): Promise<void> {
  const before = page.viewportSize();
  const found: string[] = [];
  for (const size of HANDS) {
    await page.setViewportSize(size);
    for (const one of await page.evaluate(covered)) found.push(`${size.width} x ${size.height}: ${one}`);
  }
  if (before) await page.setViewportSize(before);
  expect(found, `${page.url()} has controls out of reach`).toEqual([]);
}

/** Runs in the page: what cannot be tapped, and what covers it. */
function covered(): string[] {
  const CONTROLS =
    "a[href], button, input:not([type=hidden]), select, textarea, summary, [role=button], [role=switch]";
  const nameOf = (el: Element | null) =>
    el &&
    `${el.tagName.toLowerCase()} "${(el.getAttribute("aria-label") ?? el.textContent ?? "").trim().slice(0, 40)}"${el.getAttribute("name") ? ` (${el.getAttribute("name")})` : ""}`;
  const shown = (el: Element) =>
    el.checkVisibility({ checkVisibilityCSS: true, checkOpacity: true }) &&
    !el.matches(":disabled") &&
    !el.closest("[inert], [aria-hidden=true], [popover]:not(:popover-open), dialog:not([open])") &&
    getComputedStyle(el).pointerEvents !== "none";
  /** What a finger meets: a field drawn as one pixel stands for its label, a link over two lines for its first. */
  const target = (el: Element): Element | null => {
    const { width, height } = el.getBoundingClientRect();
    if (width > 2 && height > 2) return el;
    const label = el.closest("label");
    return label && label.getBoundingClientRect().width > 2 ? label : null;
  };
  const middleOf = (el: Element) => {
    const boxes = [...el.getClientRects()].filter((box) => box.width > 0 && box.height > 0);
    const box = boxes[0] ?? el.getBoundingClientRect();
    return { x: box.left + box.width / 2, y: box.top + box.height / 2 };
  };
  const metAt = (el: Element, { x, y }: { x: number; y: number }) => {
    const hit = document.elementFromPoint(x, y);
    const own =
      hit !== null && (el === hit || el.contains(hit) || hit.closest("label")?.contains(el) === true);
    return own ? null : `${nameOf(el)} lies under ${nameOf(hit) ?? "nothing: it is off the screen"}`;
  };
  const wrong = new Set<string>();
  const wide = document.documentElement.scrollWidth - window.innerWidth;
  if (wide > 0) wrong.add(`the page is ${wide} px wider than the screen`);
  const controls = [...document.querySelectorAll(CONTROLS)].filter(shown).flatMap((el) => target(el) ?? []);
  for (const el of controls) {
    el.scrollIntoView({ block: "nearest", inline: "nearest", behavior: "instant" });
    const trouble = metAt(el, middleOf(el));
    if (trouble) wrong.add(trouble);
  }
  window.scrollTo({ top: document.documentElement.scrollHeight, behavior: "instant" });
  for (const el of controls) {
    const middle = middleOf(el);
    // Higher up a sticky row of names may lie over a control: scrolling back uncovers it.
    if (middle.y < window.innerHeight / 2 || middle.y > window.innerHeight) continue;
    const trouble = metAt(el, middle);
    if (trouble) wrong.add(`${trouble}, at the end of the page`);
  }
  window.scrollTo({ top: 0, behavior: "instant" });
  return [...wrong].slice(0, 12);
}
