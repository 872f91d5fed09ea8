import { readdirSync, readFileSync } from "node:fs";

/** What processes take of memory, in MiB, as Linux counts it (proc(5), smaps_rollup). */
export interface Memory {
  /** Pages that several of them share are counted once: what a container counts of them. */
  readonly shared: number;
  /** Of that, what cannot be read again from a file: the part that has to fit. */
  readonly own: number;
  /** Shared pages counted for each. */
  readonly resident: number;
}

/** A process and all that descend from it. */
export function treeOf(root: number): number[] {
  const parents = new Map<number, number>();
  for (const pid of readdirSync("/proc").map(Number).filter(Number.isInteger)) {
    const stat = statOf(pid);
    if (stat) parents.set(pid, Number(stat[1]));
  }
  const tree = [root];
  for (const one of tree) for (const [pid, parent] of parents) if (parent === one) tree.push(pid);
  return tree;
}

/** Fields of /proc/<pid>/stat after the command's name, which may hold blanks (proc(5)); null where it has ended. */
const statOf = (pid: number) => fieldsOf(`/proc/${pid}/stat`);

function fieldsOf(file: string): string[] | null {
  const text = textOf(file);
  return text === null ? null : text.slice(text.lastIndexOf(")") + 2).split(" ");
}

/** Seconds of processor that a process has taken; Linux counts in hundredths. */
export const cpuOf = (pid: number): number => secondsOf(statOf(pid));

const secondsOf = (stat: string[] | null) => (stat ? (Number(stat[11]) + Number(stat[12])) / 100 : 0);

/** Seconds of processor by kind of thread: "main" is the event loop's, the others bear the names that Node and V8 give them. */
export type CpuOfThreads = Readonly<Record<string, number>>;

export function cpuOfThreads(pids: readonly number[]): CpuOfThreads {
  const sum: Record<string, number> = {};
  for (const pid of pids)
    for (const thread of threadsOf(pid)) {
      const folder = `/proc/${pid}/task/${thread}`;
      const kind = thread === pid ? "main" : (textOf(`${folder}/comm`)?.trim() ?? "ended");
      sum[kind] = (sum[kind] ?? 0) + secondsOf(fieldsOf(`${folder}/stat`));
    }
  return sum;
}

function threadsOf(pid: number): number[] {
  try {
    return readdirSync(`/proc/${pid}/task`).map(Number);
  } catch {
    // It has ended meanwhile.
    return [];
  }
}

export function memoryOf(pids: readonly number[]): Memory {
  const sum = { shared: 0, own: 0, resident: 0 };
  for (const pid of pids) {
    const text = textOf(`/proc/${pid}/smaps_rollup`) ?? "";
    const mib = (name: string) =>
      Number(new RegExp(`^${name}:\\s+(\\d+) kB`, "m").exec(text)?.[1] ?? 0) / 1024;
    sum.shared += mib("Pss");
    sum.own += mib("Pss_Anon");
    sum.resident += mib("Rss");
  }
  return sum;
}

export function textOf(file: string): string | null {
  try {
    return readFileSync(file, "utf8");
  } catch {
    // It has ended meanwhile.
    return null;
  }
}
