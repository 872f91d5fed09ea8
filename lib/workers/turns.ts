export interface TurnLimits {
  /** Pieces of work at once. */
  readonly atOnce: number;
  /** Of those, the most that one shop holds. */
  readonly atOncePerShop: number;
  readonly waiting: number;
  readonly waitingPerShop: number;
}

interface Waiting {
  readonly shop: string;
  readonly begin: () => void;
}

/**
 * Turns at the worker threads: shops take turns, each shop's own work in the order it was asked for. What one shop may run
 * and keep waiting is bounded, so that none crowds the others out, and so is all that waits.
 */
export class Turns {
  private readonly running = new Map<string, number>();
  /** In the order in which shops had their last turn: the one that waited longest for another comes first. */
  private queue: Waiting[] = [];
  private lastTurn = new Map<string, number>();
  private turns = 0;

  constructor(private readonly limits: TurnLimits) {}

  get busy(): number {
    return [...this.running.values()].reduce((sum, n) => sum + n, 0);
  }

  get waiting(): number {
    return this.queue.length;
  }

  /**
   * Resolves with what ends the turn once it has begun; null at once where too many wait, or when `signal` aborts first.
   */
  take(shop: string, signal: AbortSignal): Promise<(() => void) | null> {
    if (signal.aborted) return Promise.resolve(null);
    const own = this.queue.filter((one) => one.shop === shop).length;
    const free = this.mayBegin(shop) && own === 0;
    if (!free && (this.queue.length >= this.limits.waiting || own >= this.limits.waitingPerShop))
      return Promise.resolve(null);
    return new Promise((resolve) => {
      const leave = () => {
        this.queue = this.queue.filter((one) => one !== entry);
        resolve(null);
      };
      const entry: Waiting = {
        shop,
        begin: () => {
          signal.removeEventListener("abort", leave);
          resolve(this.begun(shop));
        },
      };
      signal.addEventListener("abort", leave, { once: true });
      this.queue.push(entry);
      this.next();
    });
  }

  private mayBegin(shop: string): boolean {
    return this.busy < this.limits.atOnce && (this.running.get(shop) ?? 0) < this.limits.atOncePerShop;
  }

  private begun(shop: string): () => void {
    let over = false;
    return () => {
      if (over) return;
      over = true;
      const left = (this.running.get(shop) ?? 1) - 1;
      if (left > 0) this.running.set(shop, left);
      else this.running.delete(shop);
      this.next();
    };
  }

  private next(): void {
    for (;;) {
      const may = this.queue.filter((one) => this.mayBegin(one.shop));
      const [first] = may;
      if (!first) break;
      const lastOf = (one: Waiting) => this.lastTurn.get(one.shop) ?? 0;
      const chosen = may.reduce((best, one) => (lastOf(one) < lastOf(best) ? one : best), first);
      this.queue = this.queue.filter((one) => one !== chosen);
      this.running.set(chosen.shop, (this.running.get(chosen.shop) ?? 0) + 1);
      this.turns += 1;
      this.lastTurn.set(chosen.shop, this.turns);
      chosen.begin();
    }
    // Only shops with work at hand are remembered.
    if (this.queue.length === 0 && this.running.size === 0) this.lastTurn = new Map();
  }
}
