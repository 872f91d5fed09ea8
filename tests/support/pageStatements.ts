import { existsSync, readFileSync } from "node:fs";

/** So many statements a page may ask of the databases, sign-in and membership with it. */
export const MOST_STATEMENTS = 12;

const LINE_WAIT_MS = 5_000;

/** How many a request asked, as `file` says of it once its answer has gone out: lines of a server's log (`requestsOf`). */
export async function statementsOf(file: string, request: string): Promise<number> {
  for (const until = performance.now() + LINE_WAIT_MS; performance.now() < until; ) {
    const line = linesOf(file).find((one) => one.includes(`"request":"${request}"`));
    if (line) return (JSON.parse(line) as { readonly statements?: number }).statements ?? 0;
    await new Promise((resume) => setTimeout(resume, 5));
  }
  throw new Error(`Nothing in ${file} tells of the request ${request}.`);
}

const linesOf = (file: string) =>
  existsSync(file) ? readFileSync(file, "utf8").split("\n").slice(0, -1) : [];
