import { Refusal } from "@/lib/domain/refusal";
import { complain } from "@/lib/log/say";

/** How a start ends that cannot go on. */
export function refused(cause: unknown): never {
  if (!(cause instanceof Refusal)) throw cause;
  complain(`\n${cause.message}\n${cause.remedy}`);
  process.exit(1);
}
