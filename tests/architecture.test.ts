import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, normalize, relative } from "node:path";
import { describe, expect, it } from "vitest";

const root = process.cwd();

function files(folder: string): string[] {
  if (!existsSync(join(root, folder))) return [];
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .map((name) => join(folder, name))
    .filter(
      (name) =>
        /\.(ts|tsx)$/.test(name) && !name.includes("generated") && statSync(join(root, name)).isFile(),
    )
    .sort();
}

interface Import {
  /** Project path without extension for our own files, package name otherwise. */
  readonly target: string;
  readonly own: boolean;
  readonly typeOnly: boolean;
}

const IMPORT =
  /(?:^|\n)\s*(import|export)\s+(type\s+)?(?:[^"';]*?\sfrom\s+)?["']([^"']+)["']|\bimport\(\s*["']([^"']+)["']\s*\)/g;

function importsOf(file: string): Import[] {
  const text = readFileSync(join(root, file), "utf8");
  return [...text.matchAll(IMPORT)].map((found) => {
    const named = found[3] ?? found[4] ?? "";
    const own = named.startsWith("@/") || named.startsWith(".");
    const target = named.startsWith("@/")
      ? named.slice(2)
      : named.startsWith(".")
        ? normalize(join(dirname(file), named))
        : named;
    return { target, own, typeOnly: Boolean(found[2]) };
  });
}

function isClient(file: string): boolean {
  return /^\s*["']use client["']/.test(readFileSync(join(root, file), "utf8"));
}

const within = (target: string, folders: readonly string[]) =>
  folders.some((f) => target === f || target.startsWith(`${f}/`));

/** Folder -> what it may import: own folders, and packages (null: any package). */
const TABLE: Record<string, { own: string[]; packages: string[] | null }> = {
  "lib/domain": { own: ["lib/domain"], packages: ["decimal.js", "temporal-polyfill"] },
  // What reaches customers, in their languages. Browsers get the sentences that a page shows, never the catalogue.
  "lib/words": { own: ["lib/words", "lib/domain/refusal"], packages: ["use-intl"] },
  "lib/schemas": {
    own: ["lib/domain", "lib/schemas", "lib/words/language"],
    packages: ["zod", "papaparse"],
  },
  "lib/documents": {
    own: ["lib/domain", "lib/documents", "lib/words"],
    packages: [
      "pdfmake",
      "bwip-js",
      "ical-generator",
      "papaparse",
      "xmlbuilder2",
      "node:fs",
      "node:path",
      "node:module",
      "node:buffer",
    ],
  },
  "lib/configuration": { own: ["lib/configuration", "lib/domain/refusal"], packages: ["zod", "node:"] },
  "lib/db": {
    // Whoever drops a shop's database drops its pictures, wherever they are kept.
    own: ["lib/db", "lib/configuration", "lib/domain", "lib/log", "lib/outside/photoStore"],
    packages: [
      "@prisma/adapter-better-sqlite3",
      "@prisma/adapter-pg",
      "@prisma/client/runtime/client",
      "@prisma/driver-adapter-utils",
      "@prisma/schema-engine-wasm",
      "better-sqlite3",
      "pg",
      "async-mutex",
      "canonicalize",
      "node:",
    ],
  },
  "lib/workers/tasks": {
    own: ["lib/workers/tasks", "lib/workers/slices", "lib/domain", "lib/documents", "lib/schemas"],
    packages: ["heic-decode", "sharp"],
  },
  "lib/workers": {
    own: [
      "lib/workers",
      "lib/db/memory",
      "lib/db/ownScript",
      "lib/log",
      "lib/domain",
      "lib/documents",
      "lib/schemas",
    ],
    packages: ["piscina", "node:", "heic-decode", "sharp"],
  },
  "lib/data": {
    own: ["lib/data", "lib/configuration", "lib/db", "lib/workers", "lib/schemas", "lib/domain", "lib/words"],
    packages: [
      "@node-rs/argon2",
      "@zxcvbn-ts",
      "canonicalize",
      "otplib",
      "temporal-polyfill",
      "node:crypto",
      "zod",
    ],
  },
  "lib/log": { own: ["lib/log", "lib/configuration"], packages: ["pino", "node:"] },
  "lib/outside": { own: ["lib/configuration", "lib/domain", "lib/outside"], packages: null },
  "lib/gate": {
    own: [
      "lib/gate",
      "lib/configuration",
      "lib/db",
      "lib/schemas",
      "lib/domain",
      "lib/log",
      "lib/words",
      "lib/data/people",
      // How the bucket of the photos is, for whoever watches the server.
      "lib/outside/photoStore",
      "lib/outside/reachBucket",
    ],
    packages: ["next", "next-auth", "react", "zod", "node:"],
  },
};

/**
 * What stands on what, lowest first. A room (a folder, or a file that lies beside folders) imports rooms before it and none
 * after it, so that no two rooms import each other. Change this list when a room is added; a rule that has to be turned
 * around is a sign that something lies in the wrong room.
 */
const FLOORS: Record<string, { loose: boolean; floors: Record<string, readonly string[]> }> = {
  "lib/data": {
    loose: false,
    floors: {
      common: ["common"],
      records: [
        "shop",
        "people",
        "photos",
        "library",
        "packages",
        "documents",
        "mail",
        "stock",
        "bikes",
        "customers",
        "einvoice",
      ],
      acts: [
        "followUps",
        "orders",
        "parts",
        "kits",
        "jobs",
        "intakes",
        "arrivals",
        "bookings",
        "quotes",
        "rides",
        "runAnswers",
        "acceptance",
        "invoices",
        "endOfDay",
        "payments",
        "bank",
        "chasing",
        "sales",
        "imports",
        "merging",
        "erasing",
      ],
      views: ["papers", "figures", "ledger", "bench", "search", "today", "taxReport", "books"],
    },
  },
  "lib/domain": {
    loose: true,
    floors: {
      words: ["delta", "refusal", "reason", "searchKey", "access", "numbers"],
      measures: ["units", "money", "air", "schedule", "mail", "letters", "signature"],
      subjects: [
        "tuning",
        "packages",
        "library",
        "tax",
        "pricing",
        "labour",
        "stock",
        "plan",
        "sheets",
        "photos",
        "backup",
        "procedures",
        "offline",
        "arrival",
      ],
      joined: [
        "quoting",
        "invoices",
        "einvoice",
        "endOfDay",
        "chasing",
        "ledger",
        "imports",
        "bank",
        "bench",
        "taxReport",
      ],
    },
  },
  demo: {
    loose: true,
    floors: {
      stage: ["calendar", "stage", "photos"],
      acts: ["packages", "work", "seasons"],
      shops: ["saltpan", "fjellrev"],
      whole: ["signIns", "build", "sample", "run"],
    },
  },
};

/** Imports of `folder` that its floors do not allow, and rooms or files that stand on none. */
function againstFloors(folder: string): string[] {
  const { loose, floors } = FLOORS[folder] as (typeof FLOORS)[string];
  const order = Object.values(floors).flat();
  const roomOf = (path: string) =>
    path
      .slice(folder.length + 1)
      .split("/")[0]
      ?.replace(/\.tsx?$/, "") ?? "";
  return files(folder).flatMap((file) => {
    const room = roomOf(file);
    const at = order.indexOf(room);
    if (at < 0) return [`${file} stands on no floor`];
    if (!loose && dirname(file) === folder) return [`${file} lies in no room`];
    return importsOf(file)
      .filter(({ target, own }) => own && within(target, [folder]) && order.indexOf(roomOf(target)) > at)
      .map(({ target }) => `${file} -> ${target} goes up`);
  });
}

describe("the house", () => {
  for (const [folder, { floors }] of Object.entries(FLOORS)) {
    it(`lets ${folder} import downwards only: ${Object.keys(floors).join(", ")}, from the ground up`, () => {
      expect(againstFloors(folder)).toEqual([]);
    });

    it(`keeps no room on the list of ${folder} that is gone`, () => {
      const gone = Object.values(floors)
        .flat()
        .filter(
          (room) => !files(folder).some((file) => within(file.replace(/\.tsx?$/, ""), [`${folder}/${room}`])),
        );
      expect(gone).toEqual([]);
    });
  }

  it("has exactly the agreed top level", () => {
    const agreed = [
      "DEVELOPERS.md",
      "README.md",
      "app",
      "demo",
      "lib",
      "next.config.mjs",
      "package-lock.json",
      "package.json",
      "prisma",
      "tests",
      "tsconfig.json",
    ];
    const kept = execFileSync("git", ["ls-files", "--cached", "--others", "--exclude-standard"], {
      encoding: "utf8",
    })
      .split("\n")
      .filter((name) => name && existsSync(join(root, name)))
      .map((name) => name.split("/")[0] as string)
      .filter((name) => !name.startsWith("."));
    expect([...new Set(kept)].sort()).toEqual(agreed.sort());
  });

  for (const [folder, rule] of Object.entries(TABLE))
    it(`keeps the imports of ${folder} to what the table allows`, () => {
      const wrong: string[] = [];
      for (const file of files(folder))
        for (const { target, own } of importsOf(file)) {
          const fine = own
            ? within(target, rule.own)
            : rule.packages === null ||
              rule.packages.some((p) =>
                p.endsWith(":") ? target.startsWith(p) : target === p || target.startsWith(`${p}/`),
              );
          if (!fine) wrong.push(`${file} -> ${target}`);
        }
      expect(wrong).toEqual([]);
    });

  it("keeps units and money lowest and tuning away from pricing", () => {
    const wrong: string[] = [];
    const check = (folder: string, allowed: string[]) => {
      for (const file of files(folder))
        for (const { target, own } of importsOf(file))
          if (own && !within(target, allowed)) wrong.push(`${file} -> ${target}`);
    };
    const base = ["lib/domain/reason", "lib/domain/refusal"];
    check("lib/domain/units", [...base, "lib/domain/units"]);
    check("lib/domain/money", [...base, "lib/domain/money", "lib/domain/units"]);
    check("lib/domain/air", [...base, "lib/domain/air", "lib/domain/units"]);
    check("lib/domain/tuning", [...base, "lib/domain/tuning", "lib/domain/air", "lib/domain/units"]);
    expect(wrong).toEqual([]);
  });

  it("lets app import only gate, data, workers, schemas, domain, documents, words, outside and its own components", () => {
    const wrong: string[] = [];
    for (const file of files("app"))
      for (const { target, own } of importsOf(file))
        if (
          own &&
          !within(target, [
            "app",
            "lib/gate",
            "lib/data",
            "lib/workers",
            "lib/schemas",
            "lib/domain",
            "lib/documents",
            "lib/words",
            "lib/outside",
          ])
        )
          wrong.push(`${file} -> ${target}`);
    expect(wrong).toEqual([]);
  });

  it("keeps client components to domain, schemas, shared components and their own actions", () => {
    const wrong: string[] = [];
    for (const file of files("app").filter(isClient))
      for (const { target, own } of importsOf(file)) {
        const near = dirname(file);
        const fine =
          !own ||
          within(target, ["lib/domain", "lib/schemas", "app/_ui", "app/_documents"]) ||
          /(^|\/)actions$/.test(target) ||
          target.startsWith(`${near}/`) ||
          dirname(target) === near ||
          dirname(target) === dirname(near);
        if (!fine) wrong.push(`${file} -> ${target}`);
      }
    expect(wrong).toEqual([]);
  });

  it("keeps the workshop's pages, the customer's and the file routes apart: what two of them need lies in a shared place", () => {
    const apart = ["app/s", "app/c", "app/api", "app/(public)"];
    const wrong = [...apart, "app/_ui", "app/_documents"].flatMap((side) =>
      files(side).flatMap((file) =>
        importsOf(file)
          .filter(
            ({ target, own }) =>
              own &&
              within(
                target,
                apart.filter((other) => other !== side),
              ),
          )
          .map(({ target }) => `${file} -> ${target}`),
      ),
    );
    expect(wrong).toEqual([]);
  });

  it("lets nothing but lib/gate obtain a shop's database", () => {
    const wrong: string[] = [];
    for (const file of [...files("app"), ...files("lib"), ...files("demo")]) {
      if (within(file, ["lib/gate", "lib/db", "lib/server"])) continue;
      const text = readFileSync(join(root, file), "utf8");
      if (
        /\bshopStore\b|\bsqliteClient\b|\bpostgresClient\b|\bsharedClient\b|generated\/[a-z]+\/shop\/client["'](?!\s*;?\s*$)/.test(
          text.replace(/import type [^;]+;/g, ""),
        )
      )
        wrong.push(file);
    }
    expect(wrong).toEqual([]);
  });

  it("keeps clocks, chance and the environment out of the domain", () => {
    const wrong = files("lib/domain").filter((file) => {
      const code = readFileSync(join(root, file), "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/[^\n]*/g, "");
      return /Date\.now|new Date\(\)|Math\.random|process\.env|crypto\.|\bNow\./.test(code);
    });
    expect(wrong).toEqual([]);
  });

  it("reads the environment in lib/configuration alone, and tests change settings by its door", () => {
    const reading = [...files("app"), ...files("lib"), ...files("demo")].filter(
      (file) =>
        !within(file, ["lib/configuration"]) &&
        /\bprocess\.env\b|\bprocess\[|\{[^}]*\benv\b[^}]*\} = process\b|\benv\b[^;]*"node:process"/.test(
          readFileSync(join(root, file), "utf8"),
        ),
    );
    const changing = files("tests").filter((file) =>
      /\bprocess\.env\.\w+ = |delete process\.env/.test(readFileSync(join(root, file), "utf8")),
    );
    expect({ reading, changing }).toEqual({ reading: [], changing: [] });
  });

  it("keeps clocks out of lib/data too: `now` is handed in", () => {
    const wrong = files("lib/data").filter((file) =>
      /Date\.now|new Date\(\)/.test(readFileSync(join(root, file), "utf8")),
    );
    expect(wrong).toEqual([]);
  });

  it("keeps raw SQL inside lib/db and lib/data/search", () => {
    const wrong = [...files("app"), ...files("lib")].filter(
      (file) =>
        !within(file, ["lib/db", "lib/data/search"]) &&
        /\$(queryRaw|executeRaw)/.test(readFileSync(join(root, file), "utf8")),
    );
    expect(wrong).toEqual([]);
  });

  it("never pages by offset and never counts inside an include", () => {
    const wrong = files("lib/data").filter((file) =>
      /\bskip:(?!\s*1\b)|_count: { select/.test(readFileSync(join(root, file), "utf8")),
    );
    expect(wrong).toEqual([]);
  });

  it("has no rooms for odds and ends: `common` of lib/data is the floor below every noun", () => {
    const odd = [...files("app"), ...files("lib")].filter((file) =>
      /(^|\/)(utils?|helpers?|misc|manager|service|common)(\.|\/)/i.test(
        relative(".", file).replace(/^lib\/data\/common\//, ""),
      ),
    );
    expect(odd).toEqual([]);
  });

  it("refuses a write that changed no row in one way: demandOne", () => {
    const wrong = files("lib").filter(
      (file) =>
        file !== "lib/db/guard.ts" &&
        /count !== 1\)\s*\{?\s*throw|count === 0\)\s*\{?\s*throw/.test(
          readFileSync(join(root, file), "utf8"),
        ),
    );
    expect(wrong).toEqual([]);
  });

  it("reads ids out of addresses in one way: pathId, askedId and idIn", () => {
    const wrong = files("app").filter((file) => {
      if (!/(page\.tsx|route\.ts)$/.test(file)) return false;
      const text = readFileSync(join(root, file), "utf8");
      return /\bNumber\((id|params\.\w+|query\.\w+|asked|before|after)\b|parseInt\(|\\d\{\d,\d+\}\$\/\.test\(/.test(
        text,
      );
    });
    expect(wrong).toEqual([]);
  });

  it("writes only through the action wrapper: every exported server action is made by one", () => {
    const wrong: string[] = [];
    for (const file of files("app")) {
      const text = readFileSync(join(root, file), "utf8");
      if (!/^\s*["']use server["']/.test(text)) continue;
      for (const [, name, made] of text.matchAll(
        /^export (?:const (\w+)[^=]*=\s*(\w+)|async function \w+)/gm,
      ))
        if (!name || !["action", "personAction", "publicAction", "customerAction"].includes(made ?? ""))
          wrong.push(`${file}: ${name ?? "function"}`);
    }
    expect(wrong).toEqual([]);
  });

  it("runs what takes long in a worker thread: nothing but lib/workers and lib/documents prints papers", () => {
    const wrong: string[] = [];
    for (const file of [...files("app"), ...files("lib")]) {
      if (within(file, ["lib/workers", "lib/documents"])) continue;
      const code = readFileSync(join(root, file), "utf8").replace(/import type [^;]+;/g, "");
      if (
        /import [^;]*\b(\w+Pdf|printEnclosed|toPdf)\b[^;]* from/.test(code) ||
        /from ["']@?\/?[^"']*workers\/(tasks|thread)\b/.test(code)
      )
        wrong.push(file);
    }
    expect(wrong).toEqual([]);
  });

  it("links in one way, which fetches nothing ahead: app/_ui/Link.tsx", () => {
    const others = files("app").filter(
      (file) => file !== "app/_ui/Link.tsx" && importsOf(file).some(({ target }) => target === "next/link"),
    );
    expect(others).toEqual([]);
  });

  it("has dates and times typed in the shop's form, through one field: app/_ui/DateField.tsx", () => {
    const own = files("app").filter(
      (file) =>
        !["app/_ui/DateField.tsx", "app/_ui/NativePicker.tsx"].includes(file) &&
        /\btype=\{?\s*["'`](date|time|datetime-local|month|week)["'`]|\btype=\{kind\}/.test(
          readFileSync(join(root, file), "utf8"),
        ),
    );
    expect(own).toEqual([]);
  });

  it("has records chosen by searching: no field lists hundreds of customers, bikes, parts or cards", () => {
    const listing = files("app").filter((file) =>
      /<SelectField[^>]*?name="(customerId|bikeId|bike|partId|modelCardId|card|packageId)"|<select[^>]*?name="(customerId|bikeId|bike|partId|modelCardId|card|packageId)"/.test(
        readFileSync(join(root, file), "utf8"),
      ),
    );
    expect(listing).toEqual([]);
  });

  it("gives every page of a shop a title of its own (WCAG 2.4.2)", () => {
    const untitled = files("app/s").filter((file) => {
      const text = readFileSync(join(root, file), "utf8");
      const heads = text.match(/<PageHead\b/g)?.length ?? 0;
      return file.endsWith("page.tsx") && heads > (text.match(/\bof=\{/g)?.length ?? 0);
    });
    expect(untitled).toEqual([]);
  });

  it("writes `it` in unit tests: `test` is the browser tests' own", () => {
    const wrong = files("tests").filter(
      (file) =>
        !file.startsWith("tests/e2e/") &&
        /import \{[^}]*\btest\b[^}]*\} from "vitest"/.test(readFileSync(join(root, file), "utf8")),
    );
    expect(wrong).toEqual([]);
  });

  it("writes to the log, not to the console, wherever the server runs", () => {
    const wrong = [...files("app"), ...files("lib"), ...files("demo")].filter(
      (file) => !isClient(file) && /\bconsole\.\w+\(/.test(readFileSync(join(root, file), "utf8")),
    );
    expect(wrong).toEqual([]);
  });

  it("names no file outside the repository; the folder of outside references is named in one place", () => {
    const wrong = ["app", "lib", "demo", "tests"].flatMap(files).filter((file) => {
      if (file === "tests/support/references.ts") return false;
      const named = readFileSync(join(root, file), "utf8").match(/\b\w+\.md\b|\bshared\/\w+/g) ?? [];
      return named.some((name) => !["README.md", "DEVELOPERS.md"].includes(name));
    });
    expect(wrong).toEqual([]);
  });

  it("has every file and folder that README.md and DEVELOPERS.md name", () => {
    const gone = ["README.md", "DEVELOPERS.md"].flatMap((doc) =>
      [...readFileSync(join(root, doc), "utf8").matchAll(/`((?:app|demo|lib|prisma|tests)\/[^`\s<>…]+)`/g)]
        .map(([, path]) => path as string)
        .filter((path) => !existsSync(join(root, path))),
    );
    expect(gone).toEqual([]);
  });

  it("draws the states in DEVELOPERS.md that the schema has", () => {
    const text = readFileSync(join(root, "DEVELOPERS.md"), "utf8");
    const drawn = [...text.matchAll(/\nAn? (\w+)\.[^\n]*\n(?:[^\n]+\n)*\n```mermaid\n([\s\S]*?)```/g)].map(
      ([, noun = "", diagram = ""]) => {
        const ends = [...diagram.matchAll(/^ +(\S+) --> ([^\s:]+)/gm)].flatMap(([, from, to]) => [from, to]);
        return [noun, [...new Set(ends)].filter((end) => end !== "[*]").sort()] as const;
      },
    );
    const stated = (noun: string, file: string) => {
      const schema = readFileSync(join(root, "prisma/shop", file), "utf8");
      const body = new RegExp(`enum ${noun}State {([^}]*)}`).exec(schema)?.[1] ?? "";
      return body.split(/\s+/).filter(Boolean).sort();
    };
    expect(Object.fromEntries(drawn)).toEqual({
      quote: stated("Quote", "quotes.prisma"),
      job: stated("Job", "jobs.prisma"),
      // Nothing writes `done` yet.
      booking: stated("Booking", "jobs.prisma").filter((state) => state !== "done"),
      invoice: stated("Invoice", "invoices.prisma"),
      order: stated("Order", "orders.prisma"),
    });
  });

  it("answers files only through the route wrapper", () => {
    const wrong = files("app/api/s").filter(
      (file) =>
        file.endsWith("route.ts") &&
        !/= shop(File|Upload|Acts)\(/.test(readFileSync(join(root, file), "utf8")),
    );
    expect(wrong).toEqual([]);
  });
});
