import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { memoryFolder } from "./support/memoryFolder.ts";

const root = fileURLToPath(new URL("..", import.meta.url));

/** Tests of pure functions: nothing of one file is left for another, so that they share a worker and what it has loaded. */
const PURE = ["tests/domain/**/*.test.ts", "tests/documents/**/*.test.ts"];

/** Tests that take the place of a module or count what a process holds: each file has one of its own. */
const ALONE = [
  "tests/gate/**/*.test.ts",
  "tests/server/**/*.test.ts",
  "tests/data/{events,forms,peopleMail,quoteLinks,signUp}.test.ts",
];

/** What has to do with databases. */
const SHOPS = {
  globalSetup: "tests/support/template.ts",
  setupFiles: [
    "tests/support/leaveNothing.ts",
    "tests/support/useCompiled.ts",
    // It loads the clients, which costs each file some time.
    ...(process.env.DATABASE_URL ? ["tests/support/ownDatabase.ts"] : []),
  ],
};

export default defineConfig({
  root,
  resolve: { alias: { "@": root.replace(/\/$/, "") } },
  test: {
    // A test that sets no data folder is not to use the one of this checkout.
    env: { LOG_LEVEL: "fatal", TMPDIR: memoryFolder(), DATA_DIR: "/dev/null/unset" },
    // Each file has folders and databases of its own: two at a time keep two processors busy.
    maxWorkers: 2,
    // Every statement is a round trip on PostgreSQL.
    testTimeout: process.env.DATABASE_URL ? 120_000 : 30_000,
    hookTimeout: process.env.DATABASE_URL ? 240_000 : 60_000,
    projects: [
      { extends: true, test: { name: "pure", include: PURE, isolate: false } },
      // A file has a data folder of its own and leaves nothing open or set: sharing what is loaded, the clients above all, halves the time.
      {
        extends: true,
        test: {
          name: "shops",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/e2e/**", ...PURE, ...ALONE],
          // There each file has a database of its own as well, and the pools that go with it.
          isolate: Boolean(process.env.DATABASE_URL),
          ...SHOPS,
        },
      },
      { extends: true, test: { name: "alone", include: ALONE, ...SHOPS } },
    ],
  },
});
