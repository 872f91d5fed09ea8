export interface Pace {
  /** Bytes of files that an address may send without waiting. */
  readonly atOnce: number;
  /** Bytes a second that it may send after those. */
  readonly perSecond: number;
}

/** What counts the bytes of an address: here, or for all processes of this server in one of them. */
export interface Pacing {
  spend(address: string, bytes: number, nowMs: number): number | Promise<number>;
}

const MB = 1024 * 1024;

/** A desk that brings in every list of its shop, or ten photos, does not meet it; files sent without end are read slowly. */
const FILES: Pace = { atOnce: 48 * MB, perSecond: 4 * MB };

/** So many addresses are remembered; those that owe nothing any more are forgotten first. */
const MOST = 10_000;

/**
 * How fast files are read from one address. Reading one costs the whole process time, in its event loop and in the threads beside
 * it, so that large files sent one after the other, each of them allowed, would slow everyone down. They are not refused: they wait.
 */
export class Paces implements Pacing {
  /** Per address: the moment at which everything it has sent is paid for, in milliseconds. */
  private readonly paid = new Map<string, number>();

  constructor(
    private readonly pace: Pace = FILES,
    private readonly most: number = MOST,
  ) {}

  /** Counts bytes that came from an address; answers how many milliseconds pass before more of its bytes are read. */
  spend(address: string, bytes: number, nowMs: number): number {
    const { atOnce, perSecond } = this.pace;
    const paid = Math.max(nowMs, this.paid.get(address) ?? nowMs) + (bytes / perSecond) * 1000;
    this.paid.delete(address);
    this.paid.set(address, paid);
    if (this.paid.size > this.most) this.forget(nowMs);
    return Math.max(0, paid - nowMs - (atOnce / perSecond) * 1000);
  }

  get remembered(): number {
    return this.paid.size;
  }

  private forget(nowMs: number): void {
    for (const [address, paid] of this.paid) if (paid <= nowMs) this.paid.delete(address);
    for (const address of this.paid.keys()) {
      if (this.paid.size <= this.most) return;
      this.paid.delete(address);
    }
  }
}
