import type { Choice } from "../packages/choose";
import type { WorkPlan } from "../plan/plan";
import type { PricedQuote } from "../pricing/facts";
import type { AcknowledgementKey } from "./acknowledgements";
import type { GroupView } from "./options";
import type { QuotePart } from "./parts";
import type { PartsReady } from "./partsReady";
import type { Target } from "./target";

/** What stands against a quote, and whether it keeps it from being sent. */
export interface QuoteWarning {
  readonly message: string;
  readonly remedy: string;
  readonly stops: boolean;
  /** Where it is put right, besides the part's own page. */
  readonly place?: "labour rates" | "options" | "works" | "margin" | "terms";
  /** The part to put right, where it is one. */
  readonly partId?: number;
  /** The code of a part that the shop does not have. */
  readonly partCode?: string;
}

/** A whole quote, computed: what can be ticked, what is planned, set, taken and charged, and what stands against it. */
export interface QuoteView {
  readonly choice: Choice;
  readonly groups: readonly GroupView[];
  readonly plan: WorkPlan;
  readonly target: Target;
  readonly parts: readonly QuotePart[];
  readonly ready: PartsReady;
  readonly price: PricedQuote;
  /** What one visit saves against a visit for each work, in what is charged by time; already taken off the price. */
  readonly savedMinutes: number;
  readonly savedMinor: number;
  readonly depositMinor: number;
  readonly cautions: readonly string[];
  readonly acknowledgements: readonly AcknowledgementKey[];
  readonly warnings: readonly QuoteWarning[];
  /** Less is left of the price than the shop's least margin: it goes out only where someone has allowed it. */
  readonly belowLeast: boolean;
  readonly sendable: boolean;
}
