import { minutesText } from "./format";
import { words } from "./words";

/** A length of work: 45 min, 2 h 19 min. */
export function Minutes({ minutes }: { minutes: number }) {
  return (
    <span className="whitespace-nowrap font-mono">{minutesText(minutes, words.minutes, words.hours)}</span>
  );
}
