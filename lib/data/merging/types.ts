/** Two records of which one is kept, in the versions that were looked at. */
export interface Pair {
  readonly keptId: number;
  readonly keptVersion: number;
  readonly goneId: number;
  readonly goneVersion: number;
}

export interface Side {
  readonly id: number;
  readonly version: number;
  readonly name: string;
  readonly about: string;
}

export interface Said {
  readonly name: string;
  readonly value: string;
}

/** What a merge would do, before it is done. */
export interface MergePreview {
  readonly kept: Side;
  readonly gone: Side;
  /** What goes over to the kept one: "2 bikes". */
  readonly moves: readonly string[];
  /** What the kept one has blank and gets. */
  readonly filled: readonly Said[];
  /** What both say differently: the kept one's stands, and this is written down in the audit trail. */
  readonly left: readonly Said[];
  /** Why they cannot be merged; "" where they can. */
  readonly against: string;
}
