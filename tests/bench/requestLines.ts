import type { Readable } from "node:stream";

const LINE_WAIT_MS = 5_000;

/** What a server's log says of its requests: how many statements each asked. What is no line of the log is shown. */
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
    if (!line.startsWith("{")) return void process.stderr.write(`${line}\n`);
    if (!line.includes('"msg":"request"')) return;
    const { request, statements = 0 } = JSON.parse(line) as { request: string; statements?: number };
    this.#found.set(request, statements);
  }

  /** Waits for the line of a request, which is written once its answer has gone out; null where none comes. */
  async statementsOf(request: string): Promise<number | null> {
    const until = performance.now() + LINE_WAIT_MS;
    while (!this.#found.has(request) && performance.now() < until)
      await new Promise((resume) => setTimeout(resume, 5));
    const found = this.#found.get(request) ?? null;
    this.#found.delete(request);
    return found;
  }
}
