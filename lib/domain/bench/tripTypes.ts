import type { Air } from "../air/weather";
import type { Firmness, Reason } from "../reason";
import type {
  DensityJet,
  FoundCarburettor,
  JetOnHand,
  ModelCardFacts,
  RegionCorrection,
  TargetRefusal,
  TargetSetting,
} from "../tuning/targetTypes";
import type { Place } from "./placeAir";

/** One bike, where its settings run right, and where it is going. */
export interface TripInput {
  readonly card: ModelCardFacts;
  /** Found alike in what is computed here: the first stands for all. */
  readonly carburettors: readonly FoundCarburettor[];
  readonly here: Air;
  readonly there: {
    readonly lowM: number;
    readonly highM: number;
    readonly coldC: number;
    readonly warmC: number;
    readonly humidity: number | null;
  };
  readonly jets: readonly JetOnHand[];
  readonly calibration?: readonly RegionCorrection[] | undefined;
}

/** One end of the range of places and temperatures. */
export interface TripCorner {
  readonly name: string;
  readonly place: Place;
  readonly air: Air;
  /** Oxygen per volume against here. */
  readonly density: number;
  /** Main jet that would be exactly right. */
  readonly exact: number;
  /** What air density alone asks for there: firm. */
  readonly byDensity: DensityJet;
  /** Its area over the fitted jet's. */
  readonly areaRatio: number;
  readonly screw: TargetSetting | null;
  readonly pilot: number | null;
}

/** One size over the whole trip: it is only as good as its worst corner. */
export interface TripSize {
  readonly size: number;
  readonly free: number;
  readonly worst: string;
  readonly phiError: number;
  readonly leanRisk: number;
  readonly loss: number;
}

export interface TripAnswer {
  readonly corners: readonly TripCorner[];
  readonly sizes: readonly TripSize[];
  readonly chosen: TripSize;
  readonly runnerUp: TripSize | null;
  /** Nearest to the wants of the trip among sizes with enough in the drawer; null when there is none. */
  readonly drawer: TripSize | null;
  /** Where the chosen size is furthest out, when that is far enough to change the jet there; null when one setting will do. */
  readonly carry: { readonly corner: string; readonly exact: number } | null;
  /** What was held back without a measurement; null when nothing. */
  readonly held: TargetRefusal | null;
  /** Screw to start from: the richest that any corner asks for; null when its position is not known. */
  readonly screw: TargetSetting | null;
  readonly assumptions: readonly Reason[];
  readonly because: readonly Reason[];
  readonly firmness: Firmness;
}
