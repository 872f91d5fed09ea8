/** All that a purchase order says: quantities in thousandths of the part's unit, costs in ten-thousandths, days as "YYYY-MM-DD". */
export interface OrderOnPaper {
  readonly number: string;
  readonly state: string;
  readonly orderedOn: string | null;
  readonly note: string;
  readonly supplier: {
    readonly name: string;
    readonly address: string;
    readonly email: string;
    readonly customerNumber: string;
  };
  readonly lines: readonly {
    readonly code: string;
    readonly quantityMilli: number;
    readonly receivedMilli: number;
    readonly openMilli: number;
    readonly unitCostE4: number | null;
    readonly dueOn: string | null;
    readonly part: { readonly code: string; readonly name: string; readonly unit: string };
  }[];
  readonly shop: {
    readonly name: string;
    readonly address: string;
    readonly phone: string;
    readonly email: string;
    readonly taxNumber: string;
    /** What that number is called; absent in orders from before it was kept. */
    readonly numberName?: string;
    /** What the law wants after it; absent as well. */
    readonly numberMarks?: readonly string[];
    readonly locale: string;
    readonly country: string;
    readonly currency: string;
  };
  readonly day: string;
}
