import { type InstantLook, instantText } from "./format";

export interface InstantProps {
  /** ISO 8601 in UTC. */
  at: string;
  locale: string;
  /** The shop's IANA zone. */
  zone: string;
  look?: InstantLook | undefined;
}

/** An instant on the shop's clock. */
export function Instant({ at, locale, zone, look }: InstantProps) {
  return (
    <time dateTime={at} className="whitespace-nowrap">
      {instantText(at, locale, zone, look)}
    </time>
  );
}
