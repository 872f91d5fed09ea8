import { directoryAnswers } from "@/lib/gate/health";

export const dynamic = "force-dynamic";

/** For whoever watches the server: answers once the directory can be read. */
export async function GET(): Promise<Response> {
  const well = await directoryAnswers();
  return Response.json({ well }, { status: well ? 200 : 503, headers: { "Cache-Control": "no-store" } });
}
