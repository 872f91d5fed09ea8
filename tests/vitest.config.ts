import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL("..", import.meta.url));

export default defineConfig({
  root,
  resolve: { alias: { "@": root.replace(/\/$/, "") } },
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/e2e/**"],
    env: { LOG_LEVEL: "fatal" },
    testTimeout: 30_000,
    hookTimeout: 60_000,
  },
});
