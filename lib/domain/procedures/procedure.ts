import type { Drawing } from "./drawing";

/** How something is measured at the bench. What it says of the trade is common practice, no source, unless it names one. */
export interface Procedure {
  /** In the address: kebab-case. */
  readonly id: string;
  readonly name: string;
  /** Keys of MEASURABLES (lib/domain/tuning/measurables.ts) that it reads. */
  readonly measures: readonly string[];
  readonly instrument: string;
  /** The smallest difference that the instrument tells. */
  readonly resolution: string;
  /** How many readings are taken, and which of them counts. */
  readonly readings: string;
  /** What has to be so before a reading means anything. */
  readonly before?: readonly string[];
  readonly steps: readonly string[];
  /** What the product does with the value. */
  readonly kept: string;
  readonly cautions: readonly string[];
  readonly drawing: Drawing;
}

/** Said wherever the bowl, a hose or the drain is opened. */
export const FUEL =
  "Fuel vapour burns. Work in moving air, away from flames, sparks and heaters, catch what runs out in a closed metal can, and wipe up at once.";
/** Said wherever the engine runs. */
export const RUNNING =
  "A running engine needs fresh air or an extractor: exhaust gas kills without a smell. Hands, hair and sleeves stay clear of chain, fan and wheel; a second person stands clear of the bike.";
/** Said wherever the header may be warm. */
export const HOT =
  "The header burns for half an hour after a run: let it cool, or wear gloves made for heat.";
/** Said with every procedure: whose word counts. */
export const MAKER = "Where the maker's manual or local law says otherwise, they count, and not this page.";
