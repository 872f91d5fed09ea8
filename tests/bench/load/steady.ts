import type { Asked, Served } from "./generator";

/** So many people who each ask for the next page once they have the last one: the load where wrk is not installed. Run by generator.ts. */
const { base, cookie, paths, parallel, seconds } = JSON.parse(process.argv[2] ?? "{}") as Asked;

const until = performance.now() + seconds * 1000;
const times: number[] = [];
let errors = 0;
let next = 0;

async function person(): Promise<void> {
  while (performance.now() < until) {
    const began = performance.now();
    const answer = await fetch(`${base}${paths[next++ % paths.length]}`, {
      headers: { Cookie: cookie },
      redirect: "manual",
    });
    await answer.arrayBuffer();
    if (answer.status !== 200) errors++;
    times.push(performance.now() - began);
  }
}

await Promise.all(Array.from({ length: parallel }, person));
times.sort((a, b) => a - b);
const at = (share: number) => times[Math.floor(times.length * share)] ?? Number.NaN;
process.stdout.write(
  JSON.stringify({ asked: times.length, errors, p50: at(0.5), p95: at(0.95) } satisfies Served),
);
