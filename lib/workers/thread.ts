import { packed } from "./answers";
import { TASKS } from "./tasks";

/** What a worker thread does with a message: the named task, its input, its answer. */
export default function work({ task, input }: { task: keyof typeof TASKS; input: unknown }) {
  const run = TASKS[task] as (given: unknown) => unknown;
  return packed(() => run(input));
}
