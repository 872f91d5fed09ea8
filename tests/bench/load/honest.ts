import { type Answered, act, get, type Site } from "./site";

/** What people of a shop do all day, with how often; the last is a write, some are papers. */
const WORK: readonly (readonly [weight: number, (site: Site, turn: number) => Promise<Answered>])[] = [
  [3, (site) => get(site, `/s/${site.shop}`)],
  [3, (site) => get(site, `/s/${site.shop}/jobs`)],
  [2, (site) => get(site, `/s/${site.shop}/jobs/1/card`)],
  [2, (site) => get(site, `/s/${site.shop}/quotes`)],
  [2, (site) => get(site, `/s/${site.shop}/quotes/1`)],
  [2, (site) => get(site, `/s/${site.shop}/stock`)],
  [1, (site) => get(site, `/s/${site.shop}/customers`)],
  [1, (site) => get(site, `/api/s/${site.shop}/jobs/1/card`)],
  [
    1,
    (site, turn) =>
      act(site, "customers/actions.ts", "saveCustomer", [
        ["_shop", site.shop],
        ["name", `Load ${turn}`],
      ]),
  ],
];

export interface Honest {
  readonly times: readonly number[];
  /** What went wrong, with how often. */
  readonly errors: Readonly<Record<string, number>>;
}

/** Mixed work at `perSecond` on average, arriving at random (Poisson), for so many seconds. */
export async function honestWork(site: Site, perSecond: number, seconds: number): Promise<Honest> {
  const all = WORK.flatMap(([weight, work]) => Array.from({ length: weight }, () => work));
  const times: number[] = [];
  const errors: Record<string, number> = {};
  const under: Promise<void>[] = [];
  const begun = performance.now();
  for (let turn = 0, at = 0; ; turn++) {
    at += (-Math.log(1 - Math.random()) / perSecond) * 1000;
    if (at > seconds * 1000) break;
    const wait = begun + at - performance.now();
    if (wait > 0) await new Promise((resume) => setTimeout(resume, wait));
    const work = all[Math.floor(Math.random() * all.length)];
    if (!work) continue;
    // Timed from when it was due: a wait of this process for the server's answers is no excuse.
    const due = begun + at;
    under.push(
      work(site, turn)
        .then(
          ({ status }) => (status < 400 ? null : String(status)),
          (cause: Error) => cause.name,
        )
        .then((wrong) => {
          times.push(performance.now() - due);
          if (wrong) errors[wrong] = (errors[wrong] ?? 0) + 1;
        }),
    );
  }
  await Promise.all(under);
  return { times: times.sort((a, b) => a - b), errors };
}
