import { defineConfig } from "@playwright/test";
import { launchBy, quickChromiumPath } from "./support/chromium";
import { E2E } from "./support/e2eServer";

export default defineConfig({
  testDir: "./e2e",
  outputDir: `../test-results/${process.env.E2E_OUTPUT ?? "asked"}`,
  timeout: 240_000,
  expect: { timeout: 15_000 },
  fullyParallel: false,
  workers: 1,
  forbidOnly: true,
  reporter: [["list"]],
  use: {
    baseURL: E2E.url,
    actionTimeout: 20_000,
    // What a device keeps is walked in a spec of its own: elsewhere it would only fetch every card once more.
    serviceWorkers: "block",
    // A trace of every step costs about as much as the walk: it is asked for where one is looked into.
    trace: process.env.E2E_TRACE ? "retain-on-failure" : "off",
    screenshot: "only-on-failure",
    launchOptions: launchBy(quickChromiumPath()),
  },
});
