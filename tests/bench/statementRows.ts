import { addressOf, SHOP_PAGES } from "../support/pageAddresses";
import { MOST_STATEMENTS as MOST } from "../support/pageStatements";
import type { Report } from "./report";
import type { BenchSite } from "./site";

const SHOWN = 10;

/** Every page of a shop with the statements that one view asks, most first. */
export async function statementReport(site: BenchSite): Promise<Report> {
  const rows: { address: string; statements: number }[] = [];
  const silent: string[] = [];
  for (const asked of SHOP_PAGES) {
    const address = await addressOf(asked, async (path) => (await visited(site, path)).html);
    // What only the first visit of a shop does is not a view's.
    await visited(site, address);
    const { status, request } = await visited(site, address);
    const statements = status === 200 ? await site.lines.statementsOf(request) : null;
    if (statements === null) silent.push(`${address} (${status})`);
    else rows.push({ address, statements });
  }
  rows.sort((one, other) => other.statements - one.statements);
  const sorted = rows.map((row) => row.statements).reverse();
  const head = `statements of one view: ${rows.length} pages, median ${sorted[Math.floor(sorted.length / 2)]}, most ${sorted.at(-1)}; goal <= ${MOST} each`;
  const unseen = silent.length > 0 ? [`not seen: ${silent.join(", ")}`] : [];
  const lines = rows.map(
    ({ address, statements }) =>
      `${String(statements).padStart(4)} ${statements > MOST ? "!" : " "} ${address}`,
  );
  return {
    text: [head, ...lines.slice(0, SHOWN), ...unseen].join("\n"),
    whole: [head, ...lines, ...unseen].join("\n"),
    goals: rows.map(({ address, statements }) => ({
      work: `${address} asks ${statements}`,
      met: statements <= MOST,
    })),
  };
}

async function visited({ base, cookie }: BenchSite, path: string) {
  const answer = await fetch(base + path, { headers: { Cookie: cookie }, redirect: "manual" });
  const html = await answer.text();
  return { html, status: answer.status, request: answer.headers.get("x-request-id") ?? "" };
}
