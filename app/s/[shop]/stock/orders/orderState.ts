import type { StateCell } from "@/app/_ui/tableTypes";
import { ORDER_WORDS, type OrderStateName } from "@/lib/schemas/orders";

const LOOK: Readonly<Record<OrderStateName, Omit<StateCell, "word">>> = {
  draft: { shape: "circle" },
  ordered: { shape: "square", tone: "brass" },
  partReceived: { shape: "diamond", tone: "brass" },
  received: { shape: "filled", tone: "pine" },
  cancelled: { shape: "dash" },
};

/** An order's state as a word and a shape; one behind its day says so. */
export function orderState(state: OrderStateName, late = false): StateCell {
  if (late) return { shape: "triangle", tone: "oxide", word: `${ORDER_WORDS[state]}, late` };
  return { ...LOOK[state], word: ORDER_WORDS[state] };
}
