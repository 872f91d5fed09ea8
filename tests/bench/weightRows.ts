import { addressOf, PUBLIC_PAGES, SHOP_PAGES } from "../support/pageAddresses";
import { MOST, scales, type Weight } from "../support/pageWeights";
import { columns } from "./floor";
import { rowsIn } from "./pageRows";
import type { Report } from "./report";
import type { BenchSite } from "./site";

/** A document that lists so many rows of records may weigh less than others. */
const LIST = { rows: 50, raw: 70_000 };

interface Weighed extends Weight {
  readonly address: string;
  /** Rows in the bodies of its tables. */
  readonly rows: number;
}

const PERSON_PAGES = ["/account", "/account/security", "/account/devices"];

/** What every page of the product weighs, signed in to the demo; the heaviest first. */
export async function weightReport(site: BenchSite): Promise<Report> {
  const weigh = scales(async (path) => Buffer.from(await (await fetch(site.base + path)).arrayBuffer()));
  const weights: Weighed[] = [];
  for (const [addresses, cookie] of [
    [[...SHOP_PAGES, ...PERSON_PAGES], site.cookie],
    [PUBLIC_PAGES, ""],
  ] as const)
    for (const asked of addresses) {
      const address = await addressOf(asked, (path) => textOf(site.base + path, cookie));
      const text = await textOf(site.base + address, cookie);
      weights.push({
        address,
        ...(await weigh(Buffer.from(text))),
        rows: rowsIn(text),
      });
    }
  return written(weights.sort((a, b) => b.raw - a.raw));
}

async function textOf(url: string, cookie: string): Promise<string> {
  const response = await fetch(url, { headers: cookie ? { Cookie: cookie } : {}, redirect: "follow" });
  if (response.status >= 500) throw new Error(`${url} answered ${response.status}`);
  return response.text();
}

/** A figure in kB, with a mark where it is over what it may be. */
function kB(bytes: number, most: number): string {
  return `${(bytes / 1000).toFixed(1)}${bytes > most ? "!" : " "}`;
}

const SHOWN = 8;

function written(weights: readonly Weighed[]): Report {
  const rows = weights.map((w) => {
    const raw = w.rows >= LIST.rows ? LIST.raw : MOST.raw;
    return {
      work: w.address,
      met: w.raw <= raw && w.packed <= MOST.packed && w.script <= MOST.script,
      cells: [
        w.address,
        kB(w.raw, raw),
        kB(w.packed, MOST.packed),
        kB(w.script, MOST.script),
        String(w.rows),
      ],
    };
  });
  const head = ["page", "HTML kB", "packed", "script packed", "rows"];
  const over = rows.filter(({ met }) => !met);
  const told = `${weights.length} pages, ${over.length} over a limit (marked !): ${MOST.raw / 1000} kB of HTML, ${LIST.raw / 1000} where it lists ${LIST.rows} rows or more, ${MOST.packed / 1000} packed, ${MOST.script / 1000} of packed scripts`;
  const shown = [...over, ...rows.filter(({ met }) => met).slice(0, SHOWN)];
  const tableOf = (of: typeof rows) =>
    columns(
      head,
      of.map(({ cells }) => cells),
    );
  return { text: `${told}\n${tableOf(shown)}`, whole: `${told}\n${tableOf(rows)}`, goals: rows };
}
