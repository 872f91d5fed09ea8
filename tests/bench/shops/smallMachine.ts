import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/**
 * A command under which a program finds a machine of so much memory. Where it may, it shows the program another /proc/meminfo
 * (unshare(1), as root): that sets what Node and we make of it by ourselves, and holds nobody to it. `BENCH_UNDER` takes its place
 * where there is a command that does, such as "systemd-run --scope --quiet -p MemoryMax=512M -p MemorySwapMax=0".
 */
export function underMachineOf(mib: number, folder: string): { under: string[]; told: string } {
  const given = process.env.BENCH_UNDER?.split(" ").filter(Boolean);
  if (given) return { under: given, told: given.join(" ") };
  const shown = join(folder, "meminfo");
  const under = ["unshare", "-m", "sh", "-c", `mount --bind '${shown}' /proc/meminfo && exec "$@"`, "sh"];
  try {
    const real = readFileSync("/proc/meminfo", "utf8");
    writeFileSync(shown, real.replace(/^MemTotal:.*$/m, `MemTotal: ${mib * 1024} kB`));
    execFileSync(under[0] as string, [...under.slice(1), "true"], { stdio: "ignore" });
    return { under, told: `told of ${mib} MiB, not held to them` };
  } catch {
    // V8's own choice on such a machine: half of it for the old generation.
    const flags = `--max-old-space-size=${mib / 2} --max-semi-space-size=1`;
    return { under: ["env", `NODE_OPTIONS=${flags}`], told: `all of this machine, ${flags}` };
  }
}
