import { spawn } from "node:child_process";
import { join } from "node:path";
import { DEMO_PEOPLE } from "../../demo/signIns";
import { type Row, timed } from "./floor";

const PORT = 3492;
const BASE = `http://localhost:${PORT}`;
const PASSWORD = "bench-slide-float-3141";

/** A list page, signed in, against a bare page of the same server: both asked by this process, the server is another. */
export async function pageRows(dataDir: string): Promise<Row[]> {
  const server = spawn(join("node_modules/.bin/tsx"), ["lib/server/start.ts"], {
    env: {
      ...process.env,
      ENV_FILE: "off",
      PORT: String(PORT),
      DATA_DIR: dataDir,
      DEMO_PASSWORD: PASSWORD,
      DEMO_HISTORY: "off",
    },
    stdio: ["ignore", "pipe", "inherit"],
  });
  const ended = new Promise((resolve) => server.once("exit", resolve));
  try {
    await new Promise<void>((resolve, reject) => {
      server.stdout.on("data", (chunk: Buffer) => chunk.toString().includes("Stop with Ctrl+C") && resolve());
      server.once("exit", () => reject(new Error("The server did not come up.")));
    });
    const cookie = await signIn();
    const bare = await perSecond("/reset", "");
    const rows: Row[] = [];
    for (const [path, name] of [
      ["/s/saltpan/quotes", "list of quotes"],
      ["/s/saltpan/stock", "list of parts"],
      ["/s/saltpan", "Today"],
    ] as const) {
      const page = await perSecond(path, cookie);
      rows.push({
        work: `page: ${name}, signed in (${page.rate.toFixed(0)}/s)`,
        medianMs: 1000 / page.rate,
        p95Ms: page.p95,
        floor: `bare page (${bare.rate.toFixed(0)}/s)`,
        floorMs: 1000 / bare.rate,
        samples: page.n,
        goal: ">= 0.7x the bare page, so ratio <= 1.43",
      });
    }
    return rows;
  } finally {
    server.kill("SIGTERM");
    await ended;
  }
}

async function signIn(): Promise<string> {
  const jar = new Map<string, string>();
  const keep = (response: Response) => {
    for (const line of response.headers.getSetCookie()) {
      const [pair = ""] = line.split(";");
      const at = pair.indexOf("=");
      jar.set(pair.slice(0, at), pair.slice(at + 1));
    }
  };
  const cookies = () => [...jar].map(([name, value]) => `${name}=${value}`).join("; ");
  const csrf = await fetch(`${BASE}/api/auth/csrf`);
  keep(csrf);
  const { csrfToken } = (await csrf.json()) as { csrfToken: string };
  const answer = await fetch(`${BASE}/api/auth/callback/credentials`, {
    method: "POST",
    redirect: "manual",
    headers: { "Content-Type": "application/x-www-form-urlencoded", Origin: BASE, Cookie: cookies() },
    body: new URLSearchParams({
      csrfToken,
      email: DEMO_PEOPLE.saltpanOwner.email,
      password: PASSWORD,
      json: "true",
    }),
  });
  keep(answer);
  return cookies();
}

/** Eight askers for a bounded number of requests. */
async function perSecond(path: string, cookie: string): Promise<{ rate: number; p95: number; n: number }> {
  const ask = async () => {
    const response = await fetch(BASE + path, { headers: { Cookie: cookie }, redirect: "manual" });
    await response.arrayBuffer();
    if (response.status !== 200) throw new Error(`${path} answered ${response.status}`);
  };
  await timed(ask, 40);
  const total = 600;
  const times: number[] = [];
  let left = total;
  const begun = performance.now();
  await Promise.all(
    Array.from({ length: 8 }, async () => {
      while (left-- > 0) {
        const start = performance.now();
        await ask();
        times.push(performance.now() - start);
      }
    }),
  );
  const seconds = (performance.now() - begun) / 1000;
  times.sort((a, b) => a - b);
  return {
    rate: times.length / seconds,
    p95: times[Math.floor(times.length * 0.95)] ?? Number.NaN,
    n: times.length,
  };
}
