import type { Readable } from "node:stream";
import { shopAddresses } from "../support/routes";
import type { BenchSite } from "./site";

/** So many statements a page may ask of the databases, sign-in and membership with it. */
const MOST = 12;
const LINE_WAIT_MS = 5_000;

/** What a server's log says of its requests: how many statements each asked. */
export class RequestLines {
  readonly #found = new Map<string, number>();
  #rest = "";

  constructor(log: Readable) {
    log.on("data", (chunk: Buffer) => {
      const lines = (this.#rest + chunk.toString()).split("\n");
      this.#rest = lines.pop() ?? "";
      for (const line of lines) this.take(line);
    });
  }

  private take(line: string): void {
    if (!(line.startsWith("{") && line.includes('"msg":"request"'))) return;
    const { request, statements = 0 } = JSON.parse(line) as { request: string; statements?: number };
    this.#found.set(request, statements);
  }

  /** Waits for the line of a request, which is written once its answer has gone out; null where none comes. */
  async statementsOf(request: string): Promise<number | null> {
    const until = performance.now() + LINE_WAIT_MS;
    while (!this.#found.has(request) && performance.now() < until)
      await new Promise((resume) => setTimeout(resume, 20));
    return this.#found.get(request) ?? null;
  }
}

/** Every page of a shop with the statements that one view asks, most first; what is over the goal is marked. */
export async function statementTable({ base, cookie, lines }: BenchSite): Promise<string> {
  const rows: { address: string; statements: number }[] = [];
  for (const address of shopAddresses("saltpan").filter((one) => one.startsWith("/s/"))) {
    const answer = await fetch(base + address, { headers: { Cookie: cookie }, redirect: "manual" });
    await answer.arrayBuffer();
    if (answer.status !== 200) continue;
    const statements = await lines.statementsOf(answer.headers.get("x-request-id") ?? "");
    if (statements !== null) rows.push({ address, statements });
  }
  rows.sort((one, other) => other.statements - one.statements);
  const over = rows.filter((row) => row.statements > MOST).length;
  const head = `statements per page: ${rows.length} pages, ${over} over the goal of ${MOST}`;
  return [head, ...rows.map(told)].join("\n");
}

const told = ({ address, statements }: { address: string; statements: number }) =>
  `${String(statements).padStart(4)} ${statements > MOST ? "!" : " "} ${address}`;
