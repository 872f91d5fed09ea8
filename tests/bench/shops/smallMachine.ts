import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, rmdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

export interface SmallMachine {
  /** The command under which a program finds that machine. */
  readonly under: readonly string[];
  readonly told: string;
  /** How often the kernel had to end a process of it for want of memory; null where it holds nobody to anything. */
  killed(): number | null;
  end(): void;
}

/**
 * A machine of so much memory. As root on Linux it is held to it by a control group of its own, and shows another /proc/meminfo
 * (unshare(1)): without a group that may be made, that alone sets what Node and we make of it by ourselves, and holds nobody to it.
 * `BENCH_UNDER` takes its place where there is a command that does, such as "systemd-run --scope --quiet -p MemoryMax=512M".
 */
export function machineOf(mib: number, folder: string): SmallMachine {
  const given = process.env.BENCH_UNDER?.split(" ").filter(Boolean);
  if (given) return { ...UNHELD, under: given, told: given.join(" ") };
  const group = groupOf(mib);
  const shown = join(folder, "meminfo");
  const words = [
    ...(group ? [`echo $$ > '${group.joins}'`] : []),
    `mount --bind '${shown}' /proc/meminfo`,
    `exec "$@"`,
  ];
  const under = ["unshare", "-m", "sh", "-c", words.join(" && "), "sh"];
  try {
    const real = readFileSync("/proc/meminfo", "utf8");
    writeFileSync(shown, real.replace(/^MemTotal:.*$/m, `MemTotal: ${mib * 1024} kB`));
    execFileSync(under[0] as string, [...under.slice(1), "true"], { stdio: "ignore" });
    return group
      ? { under, told: `held to ${mib} MiB by a control group, without swap`, ...group }
      : { ...UNHELD, under, told: `told of ${mib} MiB, not held to them` };
  } catch {
    group?.end();
    // V8's own choice on such a machine: half of it for the old generation.
    const flags = `--max-old-space-size=${mib / 2} --max-semi-space-size=1`;
    return { ...UNHELD, under: ["env", `NODE_OPTIONS=${flags}`], told: `all of this machine, ${flags}` };
  }
}

const UNHELD = { killed: () => null, end: () => undefined };

interface Group {
  /** The file that takes the id of a process. */
  readonly joins: string;
  killed(): number;
  end(): void;
}

const CGROUPS = "/sys/fs/cgroup";

/** A control group (cgroups(7)) of either version with this limit; null where none can be made. */
function groupOf(mib: number): Group | null {
  return (
    madeGroup(join(CGROUPS, "memory", NAME), mib, {
      limits: ["memory.limit_in_bytes", "memory.memsw.limit_in_bytes"],
      events: "memory.oom_control",
    }) ??
    madeGroup(join(CGROUPS, NAME), mib, {
      limits: ["memory.max", "memory.swap.max"],
      events: "memory.events",
    })
  );
}

const NAME = `throttlewright-bench-${process.pid}`;

function madeGroup(
  folder: string,
  mib: number,
  { limits, events }: { readonly limits: readonly [string, string]; readonly events: string },
): Group | null {
  const end = () => {
    try {
      rmdirSync(folder);
    } catch {
      // It was never made, or holds a process that is still ending.
    }
  };
  try {
    mkdirSync(folder);
    const bytes = String(mib * 2 ** 20);
    writeFileSync(join(folder, limits[0]), bytes, { flag: "r+" });
    // Version 1 counts memory and swap together.
    const swap = limits[1] === "memory.swap.max" ? "0" : bytes;
    writeFileSync(join(folder, limits[1]), swap, { flag: "r+" });
    const killed = () => Number(/^oom_kill (\d+)$/m.exec(readFileSync(join(folder, events), "utf8"))?.[1]);
    return { joins: join(folder, "cgroup.procs"), killed, end };
  } catch {
    end();
    return null;
  }
}
