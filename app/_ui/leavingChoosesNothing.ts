import { type UseComboboxState, type UseComboboxStateChangeOptions, useCombobox } from "downshift";
import type { Pick } from "@/lib/schemas/picks";

/** Leaving the field closes its list and chooses nothing: what happens to be pointed at is not what was meant. */
export function leavingChoosesNothing(
  state: UseComboboxState<Pick>,
  { type, changes }: UseComboboxStateChangeOptions<Pick>,
): Partial<UseComboboxState<Pick>> {
  if (type !== useCombobox.stateChangeTypes.InputBlur) return changes;
  return { ...state, isOpen: false, highlightedIndex: -1 };
}
