import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";

/** Debian's chromium where present; else Playwright's own; else installed by apt when we may; else what to do. */
export function chromiumPath(): string | undefined {
  const debian = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find((path) =>
    existsSync(path),
  );
  return debian;
}

/**
 * Debian's build without windows where present: a third less processor time for the same pages. It has no background sync, and a walk
 * that needs that asks for the whole one.
 */
export function quickChromiumPath(): string | undefined {
  const quick = "/usr/bin/chromium-headless-shell";
  return existsSync(quick) ? quick : chromiumPath();
}

/** How a browser is begun for walks. */
export function launchBy(executablePath: string | undefined) {
  return {
    ...(executablePath ? { executablePath } : {}),
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      // A page of a walk does not live long enough for what it would gain.
      "--js-flags=--no-maglev --no-turbofan",
    ],
  };
}

export async function ensureChromium(): Promise<void> {
  if (chromiumPath()) return;
  const { chromium } = await import("@playwright/test");
  if (existsSync(chromium.executablePath())) return;
  if (process.platform === "linux" && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    console.log("Installing Debian's chromium for the browser tests …");
    execFileSync("apt-get", ["update"], { stdio: "ignore" });
    execFileSync("apt-get", ["install", "-y", "--no-install-recommends", "chromium"], {
      stdio: ["ignore", "ignore", "inherit"],
      env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
    });
    if (chromiumPath()) return;
  }
  throw new Error(
    "No Chromium for the browser tests. Install it (Debian: apt-get install chromium; elsewhere: npx playwright install chromium), then run them again.",
  );
}
