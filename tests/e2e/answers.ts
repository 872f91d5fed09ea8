import { expect, type Page, type Route } from "@playwright/test";

/** Most bytes that a tick or a pass is answered with, before compression. */
const MOST = 8_192;

/** What is read on the page, without clocks that run. */
async function readOn(page: Page): Promise<string> {
  return page.evaluate(() => {
    const main = document.querySelector("main")?.cloneNode(true) as HTMLElement;
    for (const gone of main.querySelectorAll("[role=timer], noscript, script, style")) gone.remove();
    return (main.textContent ?? "").replace(/\s+/g, " ");
  });
}

/**
 * Does an act that a form sends, waits by `shown` until it shows, and demands that its answer said no more than what changed, and
 * that the page then reads as it does when it is loaded anew.
 */
export async function demandSmallAnswer(
  page: Page,
  act: () => Promise<unknown>,
  shown: () => Promise<unknown>,
): Promise<void> {
  // Read on its way: what the page has streamed itself, the browser does not always keep.
  const sizes: number[] = [];
  const weighed = async (route: Route) => {
    if (!("next-action" in route.request().headers())) return route.fallback();
    const response = await route.fetch();
    sizes.push((await response.body()).length);
    await route.fulfill({ response });
  };
  await page.route("**", weighed);
  await act();
  await shown();
  await page.unroute("**", weighed);
  expect(sizes).toHaveLength(1);
  expect(sizes[0]).toBeLessThanOrEqual(MOST);
  const after = await readOn(page);
  await page.reload();
  // What a page fetches for itself, and what is streamed, is put in some moments after it was loaded.
  await expect.poll(() => readOn(page)).toBe(after);
}
