import { startOwnServer } from "../support/ownServer";
import { sessionCookie } from "../support/session";
import { RequestLines } from "./statementRows";

const PORT = 3492;
const PASSWORD = "bench-slide-float-3141";

/** A running server with the demo shops, and the owner of one of them signed in. */
export interface BenchSite {
  readonly base: string;
  readonly password: string;
  readonly cookie: string;
  readonly lines: RequestLines;
}

/** Runs what asks a server of the bench's own, which is another process with data in `folder`. */
export async function withSite<T>(folder: string, run: (site: BenchSite) => Promise<T>): Promise<T> {
  const server = await startOwnServer(PORT, folder, PASSWORD, { LOG_LEVEL: "info" });
  try {
    const base = `http://localhost:${PORT}`;
    return await run({
      base,
      password: PASSWORD,
      lines: new RequestLines(server.log),
      cookie: await sessionCookie(base, "saltpanOwner", PASSWORD),
    });
  } finally {
    await server.stop();
  }
}
