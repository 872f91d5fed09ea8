import { versionHere } from "@/lib/gate/health";

export const dynamic = "force-dynamic";

/** Alive: answered without asking any database, so that a slow disk does not get the process killed. */
export function GET(): Response {
  return Response.json({ live: true, version: versionHere() }, { headers: { "Cache-Control": "no-store" } });
}
