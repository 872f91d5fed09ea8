/** The cards of one shop that a device keeps. */
export interface KeptCards {
  readonly at: number;
  readonly cards: readonly { readonly id: number; readonly number: string; readonly bike: string }[];
}
