import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";

/** Debian's chromium where present; else Playwright's own; else installed by apt when we may; else what to do. */
export function chromiumPath(): string | undefined {
  const debian = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find((path) =>
    existsSync(path),
  );
  return debian;
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
