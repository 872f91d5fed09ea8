import { Refusal } from "@/lib/domain/refusal";
import { packed } from "@/lib/workers/answers";

export type Act =
  | { readonly act: "say"; readonly what: unknown }
  | { readonly act: "spin" }
  | { readonly act: "refuse" }
  | { readonly act: "break" }
  | { readonly act: "die" }
  /** Until the shared gate is opened. */
  | { readonly act: "wait"; readonly gate: Int32Array };

/** A worker thread's file for tests: what goes right, wrong and on for ever. */
export default function act(given: Act) {
  return packed(() => {
    if (given.act === "say") return given.what;
    if (given.act === "wait") return Atomics.wait(given.gate, 0, 0);
    if (given.act === "refuse")
      throw new Refusal("The drawer is empty.", "Order some.", { code: "None left." }, "conflict");
    if (given.act === "break") throw new TypeError("a bug");
    if (given.act === "die") process.exit(3);
    for (;;);
  });
}
