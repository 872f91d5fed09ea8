import type { Page } from "@playwright/test";

/** Keeps a page's scripts back, as a slow line does, until what this answers is called. */
export async function holdScripts(page: Page): Promise<() => void> {
  let release = () => {};
  const held = new Promise<void>((resolve) => {
    release = resolve;
  });
  await page.route(/\/_next\/static\/.*\.js/, async (route) => {
    await held;
    await route.continue();
  });
  return release;
}
