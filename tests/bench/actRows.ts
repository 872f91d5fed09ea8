import type { Page, Request } from "@playwright/test";
import { columns, few, median, metText, spread } from "./floor";
import type { Report } from "./report";
import type { BenchSite } from "./site";
import { SLOW, type SlowPage, slowPage, withChromium } from "./slowBrowser";

interface Answered {
  /** Of the answer's body, as it came; null where the browser did not tell. */
  readonly bytes: number | null;
  readonly inpMs: number;
  readonly shownMs: number;
}

/** Of an answer's body; of the middle interaction. */
const MOST = { bytes: 8_192, inpMs: 200 };
const TICKS = few(8);
const PASSES = few(4);

/** What a tick on a draft and a pass on a card are answered with, and how long until each shows. */
export async function actReport(site: BenchSite): Promise<Report> {
  const found = await withChromium(async (browser) => {
    const slow = await slowPage(browser, site);
    return [["tick on a draft", await ticks(slow)] as const, ["pass of a step", await passes(slow)] as const];
  });
  const rows = found.map(([act, answers]) => {
    const of = (figure: keyof Answered) =>
      answers.map((one) => one[figure]).filter((value) => value !== null);
    const inp = median(of("inpMs").toSorted((a, b) => a - b));
    const goals = [
      { work: `INP of a ${act}`, met: inp <= MOST.inpMs },
      { work: `answer to a ${act}`, met: Math.max(...of("bytes")) <= MOST.bytes },
    ];
    return {
      goals,
      cells: [
        act,
        spread(of("inpMs"), 0),
        spread(of("shownMs"), 0),
        spread(of("bytes"), 0),
        String(answers.length),
        metText(goals.every((goal) => goal.met)),
      ],
    };
  });
  return {
    text: [
      `${SLOW}; least / middle / most. Goal: INP <= ${MOST.inpMs} ms, an answer of at most ${MOST.bytes} bytes`,
      columns(
        ["act", "INP ms", "answer shown ms", "answer bytes", "n", "met"],
        rows.map(({ cells }) => cells),
      ),
    ].join("\n"),
    goals: rows.flatMap(({ goals }) => goals),
  };
}

async function measured(
  slow: SlowPage,
  run: () => Promise<unknown>,
  shown: () => Promise<unknown>,
): Promise<Answered> {
  await slow.page.waitForTimeout(400);
  await slow.forget();
  const ours = (request: Request) => "next-action" in request.headers();
  // The framework lets go of an answer as soon as it has read what it needs: then its size is not known.
  const answer = Promise.race([
    slow.page.waitForEvent("requestfinished", ours),
    slow.page.waitForEvent("requestfailed", ours),
  ]);
  const begun = performance.now();
  await run();
  const request = await answer;
  await shown();
  const shownMs = performance.now() - begun;
  await slow.page.waitForTimeout(400);
  const { inpMs } = await slow.seen();
  const bytes = request.failure() === null ? (await request.sizes()).responseBodySize : null;
  return { bytes, inpMs, shownMs };
}

async function ticks(slow: SlowPage): Promise<Answered[]> {
  const { page } = slow;
  const [draft] = await listed(page, "quotes?state=draft");
  if (!draft) throw new Error("The demo has no draft.");
  // Quiet, or the page may not be alive yet.
  await page.goto(draft, { waitUntil: "networkidle" });
  const form = page.getByRole("form", { name: "Options" });
  const boxes = form.getByRole("checkbox").and(page.locator(":enabled"));
  const answers: Answered[] = [];
  for (let n = 0; n < TICKS; n++) {
    const box = boxes.nth(Math.floor(n / 2) % (await boxes.count()));
    const idle = () => page.waitForFunction(() => !document.querySelector("form[aria-busy]"));
    answers.push(await measured(slow, () => box.tap(), idle));
  }
  return answers;
}

async function passes(slow: SlowPage): Promise<Answered[]> {
  const { page } = slow;
  const answers: Answered[] = [];
  for (const job of await listed(page, "jobs?state=inWork")) {
    if (answers.length >= PASSES) break;
    await page.goto(`${job}/card`, { waitUntil: "networkidle" });
    const form = page.getByRole("form", { name: /^Pass / });
    while (answers.length < PASSES && (await form.count()) > 0 && (await plain(page))) {
      for (const box of await form.getByRole("checkbox").all()) await box.check();
      await page.waitForFunction(() => !document.querySelector("[data-rests]"));
      const step = (await page.getByRole("heading", { level: 2 }).first().textContent()) ?? "";
      const next = () =>
        page.waitForFunction((was) => document.querySelector("h2")?.textContent !== was, step);
      const pass = () => form.getByRole("button", { name: "Pass and go on" }).tap();
      answers.push(await measured(slow, pass, next));
    }
  }
  return answers;
}

/** Addresses of what a list of the demo shop shows. */
async function listed(page: Page, list: string): Promise<string[]> {
  await page.goto(`/s/saltpan/${list}`);
  const paths = await page
    .locator("main a")
    .evaluateAll((links) => links.map((link) => link.getAttribute("href") ?? ""));
  return paths.filter((path) => /\/(quotes|jobs)\/\d+$/.test(path));
}

/** A step that asks for ticks at most, so that it can be passed without being known. */
async function plain(page: Page): Promise<boolean> {
  const asking = page
    .getByRole("form", { name: /^Pass / })
    .locator("input[type=text], select, input[type=radio]");
  return (
    (await asking.count()) === 0 && (await page.getByRole("button", { name: "Pass and go on" }).count()) > 0
  );
}
