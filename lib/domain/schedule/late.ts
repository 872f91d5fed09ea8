export interface Coming {
  readonly startsAt: Date;
  readonly dropOffAt: Date | null;
  /** When whoever called said that they come. */
  readonly expectedAt: Date | null;
}

/** When a bike is expected: as whoever brings it said last, else at its drop-off, else as its work starts. */
export const comesAt = ({ expectedAt, dropOffAt, startsAt }: Coming): Date =>
  expectedAt ?? dropOffAt ?? startsAt;
