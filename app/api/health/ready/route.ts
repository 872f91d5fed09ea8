import { readiness } from "@/lib/gate/health";

export const dynamic = "force-dynamic";

/** Ready for requests: the directory can be read and takes a write; else 503. */
export async function GET(): Promise<Response> {
  const ready = await readiness();
  const well = ready.reads && ready.writes;
  return Response.json(
    { well, ...ready },
    { status: well ? 200 : 503, headers: { "Cache-Control": "no-store" } },
  );
}
