/** A customer's visit as a booking's mail said it: what goes into their calendar. Instants are ISO 8601 in UTC. */
export interface PrintedVisit {
  readonly uid: string;
  readonly sequence: number;
  readonly startsAt: string;
  readonly endsAt: string;
  readonly summary: string;
  readonly location: string;
  readonly description: string;
  readonly cancelled: boolean;
  readonly saidAt: string;
}

export interface Visited {
  readonly id: number;
  readonly version: number;
  readonly startsAt: Date;
  readonly endsAt: Date;
  readonly dropOffAt: Date | null;
  readonly pickUpAt: Date | null;
}

/** What a visit says around the shop's own words, in the reader's language. */
export interface VisitWords {
  readonly at: (bike: string, shop: string) => string;
  readonly job: (number: string, title: string) => string;
}

interface Around {
  /** The shop's own name in addresses: with the booking's id it makes an id that stays through every change. */
  readonly slug: string;
  readonly bike: string;
  /** Null for a booking that was made before there is a job. */
  readonly job: { readonly number: string; readonly title: string } | null;
  /** What it is for, where there is no job. */
  readonly words?: string;
  readonly said: VisitWords;
  readonly place: { readonly name: string; readonly address: string; readonly phone: string };
}

/** A booking as its customer's calendar shows it, from bringing the bike to fetching it. */
export function visitOf(booking: Visited, { slug, bike, job, words = "", said, place }: Around) {
  return {
    uid: `visit-${booking.id}@${slug}`,
    sequence: booking.version,
    startsAt: booking.dropOffAt ?? booking.startsAt,
    endsAt: booking.pickUpAt ?? booking.endsAt,
    summary: said.at(bike, place.name),
    location: place.address,
    description: [job ? said.job(job.number, job.title) : words, place.phone].filter(Boolean).join("\n"),
  };
}

/** What a mail of `now` tells of a visit, as text that can be kept. */
export function printedVisit(
  { startsAt, endsAt, ...visit }: ReturnType<typeof visitOf>,
  cancelled: boolean,
  now: Date,
): PrintedVisit {
  const [from, to, said] = [startsAt, endsAt, now].map((at) => at.toISOString()) as [string, string, string];
  return { ...visit, startsAt: from, endsAt: to, cancelled, saidAt: said };
}
