import { headers } from "next/headers";
import { healthNow } from "@/lib/gate/health";

export const dynamic = "force-dynamic";

/** For whoever watches the server: how it stands. 503 where it cannot read or write its directory. */
export async function GET(): Promise<Response> {
  const health = await healthNow((await headers()).get("authorization"));
  return Response.json(health, {
    status: health.well ? 200 : 503,
    headers: { "Cache-Control": "no-store" },
  });
}
