import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { expect, type Page } from "@playwright/test";
import type axe from "axe-core";

/** Loading it costs a page half as long as looking: the short text of it, and once for each document. */
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** Said where a walk keeps the card's worker out (tests/playwright.config.ts). */
const NO_WORKER = "Service Worker registration blocked";

/** Collects what a page should never say, but for `expected`; call `demandQuiet` at the end. */
export function listen(page: Page, expected?: RegExp): { demandQuiet(): void } {
  const said: string[] = [];
  page.on("console", (message) => {
    if (message.text().startsWith(NO_WORKER)) return;
    if (message.type() === "error" || message.type() === "warning")
      said.push(`${page.url()}: ${message.text()}`);
  });
  page.on("pageerror", (error) => said.push(`${page.url()}: ${error.message}`));
  return { demandQuiet: () => expect(said.filter((line) => !expected?.test(line))).toEqual([]) };
}

/** What axe finds on the page, by rule and place. Our pages have no frames. */
async function findings(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(AXE);
  return page.evaluate(async (rules) => {
    const { axe: looking } = window as unknown as { axe: typeof axe };
    const { violations } = await looking.run(document, {
      runOnly: { type: "tag", values: rules },
      resultTypes: ["violations"],
      // The one rule that reads style sheets is on trial with axe, and off.
      preload: false,
    });
    return violations.map(
      ({ id, nodes }) =>
        `${id}: ${nodes
          .map(({ target }) => target.join(" "))
          .slice(0, 4)
          .join(" | ")}`,
    );
  }, RULES);
}

/** Waits until the page is loaded, has its title, and nothing of it has changed for a tenth of a second, or for two seconds. */
async function settled(page: Page): Promise<void> {
  await page.waitForLoadState("load");
  // The title may arrive after the first words of a streamed page.
  await expect(page).toHaveTitle(/\S/);
  await page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const done = () => {
          changes.disconnect();
          resolve();
        };
        let quiet = setTimeout(done, 100);
        const changes = new MutationObserver(() => {
          clearTimeout(quiet);
          quiet = setTimeout(done, 100);
        });
        changes.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
        setTimeout(done, 2000);
      }),
  );
}

/** The page as it stands now: no axe finding, and what `demandReachable` asks. */
export async function demandUsable(page: Page): Promise<void> {
  await settled(page);
  let found = await findings(page);
  // A page that is drawn anew is without its title for a moment: it is judged once it has one again.
  if (found.some((one) => one.startsWith("document-title"))) {
    await settled(page);
    found = await findings(page);
  }
  expect(found, page.url()).toEqual([]);
  await demandReachable(page);
}

/** No sideways scroll, no unit broken over lines or out of its field, and on a phone no control too small for a gloved finger. */
export async function demandReachable(page: Page): Promise<void> {
  const sideways = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(sideways, `${page.url()} scrolls sideways`).toBeLessThanOrEqual(0);
  const broken = await page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("[data-unit]")]
      .filter((unit) => {
        const own = unit.getBoundingClientRect();
        const field = unit.parentElement?.getBoundingClientRect();
        const lines = document.createRange();
        lines.selectNodeContents(unit);
        const tops = new Set([...lines.getClientRects()].map((line) => Math.round(line.top)));
        return tops.size > 1 || (own.width > 0 && field !== undefined && own.right > field.right + 1);
      })
      .map((unit) => unit.textContent),
  );
  expect(broken, `${page.url()} breaks units`).toEqual([]);
  const small = await page.evaluate(() => {
    if (!window.matchMedia("(pointer: coarse)").matches) return [];
    return [
      ...document.querySelectorAll<HTMLElement>(
        "button, input:not([type=hidden]), select, textarea, [role=button]",
      ),
    ]
      .filter(
        (el) =>
          el.checkVisibility({ checkVisibilityCSS: true, checkOpacity: true }) &&
          !el.closest("[popover]:not(:popover-open)"),
      )
      .filter((el) => {
        const target = el.closest("label") ?? el;
        const { width, height } = target.getBoundingClientRect();
        return width > 1 && height > 1 && (height < 47 || width < 44);
      })
      .map(
        (el) =>
          `${el.tagName} ${el.getAttribute("aria-label") ?? el.getAttribute("name") ?? el.textContent?.trim().slice(0, 30)}`,
      );
  });
  expect(small, `${page.url()} has controls under 48 px`).toEqual([]);
}
