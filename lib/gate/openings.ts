import { SHARED } from "./clientAddress";
import { limit } from "./limit";
import { requestAddress } from "./signInTries";

const WRONG = 60;
const TEN_MINUTES = 10 * 60_000;

/**
 * Counts a secret address that does not open, by where it is tried from, and refuses once there are too many. Secrets of
 * 160 bits are not found by trying: the limit keeps the trying from costing much, and right ones pass beside it.
 */
export async function failedOpening(kind: "link" | "calendar", now: Date): Promise<void> {
  const address = await requestAddress();
  await limit(`${kind} from ${address}`, WRONG * (address === SHARED ? 10 : 1), TEN_MINUTES, now);
}
