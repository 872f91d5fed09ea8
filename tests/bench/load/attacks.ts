import { type Answered, act, get, type Site } from "./site";

/** Something that a person, or a stranger, can ask for and that might hold everyone else up. */
export interface Attack {
  readonly says: string;
  /** Asked so often at once; each begins again when it was answered. */
  readonly parallel: number;
  once(site: Site, turn: number): Promise<Answered>;
}

const lines = (count: number, line: (n: number) => string) =>
  Array.from({ length: count }, (_, n) => line(n)).join("\n");

const PARTS = `code,name,kind,cost,price,bin\n${lines(20_000, (n) => `LOAD-${n},Part number ${n},other,1.25,2.50,A-${n % 90}`)}`;
const RIDE = `time,throttle,lambda,rpm\n${lines(49_000, (n) => `${n / 20},${(n * 7) % 100},${0.85 + (n % 30) / 100},${3000 + (n % 4000)}`)}`;
const DYNO = `rpm,torque,run\n${lines(49_000, (n) => `${2000 + (n % 24_500) / 4},${20 + (n % 100) / 10},${n < 24_500 ? "before" : "after"}`)}`;
const COMMAS = `time,throttle,lambda\n${",".repeat(4_900_000)}\n1,2,3`;

/** Pairs to choose one of, and one option that goes with neither of the last pair: every combination fails only there. */
function pairs(count: number, code: string): string {
  const option = (key: string, group: string) => ({
    key,
    group,
    name: key,
    plain: "",
    operations: [],
    parts: [],
    changes: [],
    cautions: [],
    preset: false,
    roadUse: false,
  });
  const groups = Array.from({ length: count }, (_, n) => `g${n}`);
  return JSON.stringify({
    format: "throttlewright-package",
    version: 1,
    code,
    name: code,
    recipe: {
      format: "throttlewright-recipe",
      version: 1,
      groups: [
        ...groups.map((key) => ({ key, name: key, choose: "exactly one" })),
        { key: "z", name: "z", choose: "any" },
      ],
      options: [
        ...groups.flatMap((group) => [option(`${group}a`, group), option(`${group}b`, group)]),
        option("z", "z"),
      ],
      operations: [],
      accesses: [],
      rules: ["a", "b"].map((side) => ({
        kind: "excludes",
        option: "z",
        other: `g${count - 1}${side}`,
        why: "they do not go together",
      })),
    },
  });
}

/** Add an attack here; `npm run bench:load -- <name>` runs it beside honest work. */
export const ATTACKS: Readonly<Record<string, Attack>> = {
  none: { says: "nothing beside the honest work", parallel: 0, once: (site) => get(site, "/") },
  labels: {
    says: "2,000 labels, as four people of one shop would ask again and again",
    parallel: 4,
    once: (site, turn) =>
      get(
        site,
        `/api/s/${site.shop}/stock/labels?ids=${Array.from({ length: 20 }, (_, n) => n + 1).join(",")}&copies=100&paper=sheet&file=${1 + (turn % 4)}`,
      ),
  },
  import: {
    says: "the check of an import of 20,000 rows",
    parallel: 2,
    once: (site) =>
      act(site, "import/actions.ts", "checkFile", [
        ["_shop", site.shop],
        ["noun", "parts"],
        ["fileName", "parts.csv"],
        ["text", PARTS],
        ...["code", "name", "kind", "costE4", "priceE4", "bin"].map(
          (field, at) => [`map.${field}`, String(at)] as const,
        ),
      ]),
  },
  bringIn: {
    says: "an import of 20,000 rows, brought in",
    parallel: 1,
    once: (site, turn) =>
      act(site, "import/actions.ts", "bringIn", [
        ["_shop", site.shop],
        ["noun", "parts"],
        ["fileName", "parts.csv"],
        ["text", PARTS.replaceAll("LOAD-", `L${turn}-`)],
        ...["code", "name", "kind", "costE4", "priceE4", "bin"].map(
          (field, at) => [`map.${field}`, String(at)] as const,
        ),
      ]),
  },
  rideLog: {
    says: "lambda logs of 49,000 rows",
    parallel: 2,
    once: (site) =>
      act(site, "bench/actions.ts", "readLambdaFile", [
        ["_shop", site.shop],
        ["csv", RIDE],
      ]),
  },
  dynoLog: {
    says: "dyno files of 49,000 rows in two runs",
    parallel: 2,
    once: (site) =>
      act(site, "bench/actions.ts", "readDynoFile", [
        ["_shop", site.shop],
        ["csv", DYNO],
      ]),
  },
  commas: {
    says: "a log of 4.9 MB of commas",
    parallel: 1,
    once: (site) =>
      act(site, "bench/actions.ts", "readLambdaFile", [
        ["_shop", site.shop],
        ["csv", COMMAS],
      ]),
  },
  package: {
    says: "packages of 14 free pairs, brought in",
    parallel: 2,
    once: (site, turn) =>
      act(site, "packages/actions.ts", "bringIn", [
        ["_shop", site.shop],
        ["file", pairs(14, `load-${process.pid}-${turn}`)],
      ]),
  },
  fields: {
    says: "40,000 fields of one name to the sign-up form, signed out",
    parallel: 2,
    once: (site) =>
      act(
        { ...site, cookie: "" },
        "(public)/actions.ts",
        "signUp",
        Array.from({ length: 40_000 }, () => ["name", "x"] as const),
      ),
  },
  signIn: {
    says: "an e-mail address of 5 MB to the sign-in, signed out",
    parallel: 2,
    once: async ({ base }) => {
      const csrf = await fetch(`${base}/api/auth/csrf`);
      const cookie = csrf.headers
        .getSetCookie()
        .map((line) => line.split(";")[0])
        .join("; ");
      const { csrfToken } = (await csrf.json()) as { csrfToken: string };
      const response = await fetch(`${base}/api/auth/callback/credentials`, {
        method: "POST",
        redirect: "manual",
        headers: { "Content-Type": "application/x-www-form-urlencoded", Origin: base, Cookie: cookie },
        body: new URLSearchParams({ csrfToken, email: "a".repeat(5_000_000), password: "x", json: "true" }),
      });
      return { status: response.status, text: await response.text() };
    },
  },
  papers: {
    says: "job cards and hand-over sheets on paper, eight at once",
    parallel: 8,
    once: (site, turn) =>
      get(site, `/api/s/${site.shop}/jobs/${1 + (turn % 3)}/${turn % 2 ? "card" : "handover"}`),
  },
  invoices: {
    says: "the export of all invoices, four at once",
    parallel: 4,
    once: (site) => get(site, `/api/s/${site.shop}/invoices/csv`),
  },
};
