import { saysOtherwise } from "@/lib/domain/imports/merge";
import type { Change } from "../common/changes";
import { type Changes, differing, type Entry } from "./types";

interface Stored {
  readonly id: number;
  readonly version: number;
}

export interface Update extends Change {
  readonly to: Changes;
  readonly from: Changes;
  readonly searchKey: string;
}

/** What the rows of a file would change, record by record: several rows may be taken for one. */
export class Updates<T extends Stored> {
  private readonly records = new Map<number, { before: T; now: T }>();
  rowsThatChange = 0;

  /** `byWords`: another spelling of what stands here is no change. */
  constructor(private readonly byWords: boolean) {}

  /** Takes a row's filled values over; answers whether that changes the record. */
  take(record: T, values: Readonly<Record<string, unknown>>): boolean {
    const known = this.records.get(record.id) ?? { before: record, now: record };
    const to = differing(
      known.now as Readonly<Record<string, unknown>>,
      values,
      this.byWords ? saysOtherwise : undefined,
    );
    const changes = Object.keys(to).length > 0;
    if (changes) this.rowsThatChange++;
    this.records.set(record.id, { before: known.before, now: { ...known.now, ...to } });
    return changes;
  }

  /** Each changed record once, from how it was to how it will be. */
  changes(searchKeyOf: (now: T) => string): Update[] {
    return [...this.records.values()].flatMap(({ before, now }) => {
      const to = differing(
        before as Readonly<Record<string, unknown>>,
        now as Readonly<Record<string, unknown>>,
      );
      if (Object.keys(to).length === 0) return [];
      const was = before as Readonly<Record<string, unknown>>;
      const from = Object.fromEntries(Object.keys(to).map((key) => [key, was[key]])) as Changes;
      return [{ id: before.id, version: before.version, from, to, searchKey: searchKeyOf(now) }];
    });
  }

  entries(noun: Entry["noun"], changes: readonly Update[]): Entry[] {
    return changes.map(({ id, version, from }) => ({
      noun,
      nounId: id,
      act: "changed",
      version: version + 1,
      was: from,
    }));
  }
}
