/** So many shops have a home; the one that was asked for longest ago gives way. */
const MOST = 10_000;

/**
 * Which worker each shop is at home with: as a shop is first asked for, with the one that is home to the fewest. Two shops of a
 * small server are so never on one worker while the other has nothing to do.
 */
export class Homes {
  readonly #homes = new Map<string, number>();
  readonly #counts: number[];

  constructor(
    workers: number,
    private readonly most = MOST,
  ) {
    this.#counts = Array.from({ length: workers }, () => 0);
  }

  homeOf(shop: string): number | undefined {
    return this.#homes.get(shop);
  }

  /** The shops that are at home with a worker. */
  at(worker: number): string[] {
    return [...this.#homes].filter(([, home]) => home === worker).map(([shop]) => shop);
  }

  /** Finds a shop its home, from 1 to the number of workers. */
  settle(shop: string): number {
    const home = this.#homes.get(shop) ?? this.#emptiest();
    if (this.#homes.delete(shop)) this.#count(home, -1);
    this.#homes.set(shop, home);
    this.#count(home, 1);
    if (this.#homes.size > this.most) {
      const [oldest, at] = this.#homes.entries().next().value as [string, number];
      this.#homes.delete(oldest);
      this.#count(at, -1);
    }
    return home;
  }

  #emptiest(): number {
    return 1 + this.#counts.indexOf(Math.min(...this.#counts));
  }

  #count(worker: number, by: number): void {
    this.#counts[worker - 1] = (this.#counts[worker - 1] ?? 0) + by;
  }
}

/** The worker that serves a shop now: its home, or while that is down always the same one of those that are up. */
export function servingNow(home: number, up: readonly number[]): number | undefined {
  if (up.includes(home)) return home;
  const sorted = [...up].sort((x, y) => x - y);
  return sorted[home % sorted.length];
}
