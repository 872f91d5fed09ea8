import { workerScript } from "@/lib/outside/workerScript";

/** The service worker. It lies above what it may answer for, so its scope, a shop's pages, is said here. */
export async function GET(): Promise<Response> {
  return new Response(await workerScript(), {
    headers: {
      "Content-Type": "text/javascript; charset=utf-8",
      "Service-Worker-Allowed": "/s/",
      "Cache-Control": "no-cache",
      "X-Content-Type-Options": "nosniff",
    },
  });
}
