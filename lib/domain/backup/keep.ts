import { Temporal } from "temporal-polyfill";

export interface Kept {
  /** When it was begun, ISO 8601 in UTC. */
  readonly at: string;
  /** The databases that were copied whole and whose books added up. */
  readonly good: readonly string[];
}

/**
 * Which backups stay: the newest of each of the `days` latest days that have one, of those before them the newest of
 * each of the `weeks` latest weeks (ISO 8601, by UTC), and for each database the newest that holds a good copy of it, however old.
 * Days without a backup count for nothing, so a server that was off does not lose what it has.
 * Answers the `at` of those that stay.
 */
export function backupsToKeep(all: readonly Kept[], days: number, weeks: number): Set<string> {
  const newestFirst = [...all].sort((a, b) => (a.at < b.at ? 1 : -1));
  const stays = new Set<string>();
  const newestOf = (name: (one: Kept) => string, most: number, from: readonly Kept[]) => {
    const seen = new Set<string>();
    for (const one of from) {
      if (seen.size >= most) return;
      if (seen.has(name(one))) continue;
      seen.add(name(one));
      stays.add(one.at);
    }
  };
  newestOf((one) => dayOf(one), days, newestFirst);
  const earliest = [...stays].at(-1)?.slice(0, 10) ?? "";
  newestOf(
    (one) => weekOf(dayOf(one)),
    weeks,
    newestFirst.filter((one) => dayOf(one) < earliest),
  );
  const found = new Set<string>();
  for (const one of newestFirst)
    for (const database of one.good)
      if (!found.has(database)) {
        found.add(database);
        stays.add(one.at);
      }
  return stays;
}

const dayOf = (one: Kept) => one.at.slice(0, 10);

function weekOf(day: string): string {
  const { yearOfWeek, weekOfYear } = Temporal.PlainDate.from(day);
  return `${yearOfWeek}-${weekOfYear}`;
}
