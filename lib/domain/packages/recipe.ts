import type { Complaint } from "../tuning/complaints";
import type { NeedleWork } from "../tuning/needleWork";
import type { PartChange } from "../tuning/partChange";
import type { SettingChange } from "../tuning/settingChange";
import type { WearItem } from "../tuning/wear";

/**
 * A package revision's content: what can be chosen, what it takes, and what goes with what.
 * Minutes are whole minutes; quantities are thousandths of the part's unit (each, ml, mm, g).
 */
export interface Recipe {
  readonly format: "throttlewright-recipe";
  readonly version: 2;
  readonly groups: readonly OptionGroup[];
  readonly options: readonly Option[];
  readonly operations: readonly Operation[];
  readonly accesses: readonly Access[];
  readonly rules: readonly Rule[];
  /** What came from the shop's library, and as it was then; absent: nothing. */
  readonly picks?: readonly LibraryPick[];
}

/**
 * An access or operation that came from the library, or a line of one: `entry` is the library's key, `print` tells which of its
 * texts it was, `part` and `key` where it stands here.
 */
export interface LibraryPick {
  readonly entry: string;
  readonly print: string;
  readonly part: "accesses" | "operations";
  readonly key: string;
  /** The list of the item that it is a line of; absent: the item itself. */
  readonly line?: "cautions" | "closingChecks";
}

/** Something to look at again once the bike has been ridden and has cooled a few times: a follow-up of the finished job. */
export interface Recheck {
  readonly what: string;
  /** Due after so many kilometres or days, whichever comes first. */
  readonly km: number;
  readonly days: number;
}

/** The lists of a recipe, each of whose items is edited by itself. */
export type ItemPart = "groups" | "options" | "operations" | "accesses" | "rules";

export interface OptionGroup {
  readonly key: string;
  readonly name: string;
  readonly choose: "exactly one" | "at most one" | "any";
}

export interface Option {
  readonly key: string;
  readonly group: string;
  readonly name: string;
  /** Plain words for the customer: what is done and what they will notice. */
  readonly plain: string;
  readonly operations: readonly string[];
  readonly parts: readonly PartNeed[];
  readonly changes: readonly SettingChange[];
  /** Complaints that it answers beside those that its settings decide. */
  readonly answers?: readonly Complaint[];
  /** What it does to the needle itself; absent: nothing. */
  readonly needle?: NeedleWork;
  /** Spring, holes, openings, filter or silencer as it leaves them, one of a kind; absent: none. */
  readonly leaves?: readonly PartChange[];
  /** Said to the customer before they accept. */
  readonly cautions: readonly string[];
  /** Ticked when a new quote starts. */
  readonly preset: boolean;
  /** True when road-use rules (emissions, noise, approval) may apply: needs the acknowledgement. */
  readonly roadUse: boolean;
  /** Fixed price for the whole option in minor units; replaces its labour and parts lines. */
  readonly fixedPriceMinor?: number;
  /** Kits with a set price that were opened into its parts; absent: none. */
  readonly kits?: readonly OptionKit[];
}

/** A kit as it was opened: what all parts that name it cost together, in minor units as the shop shows prices. */
export interface OptionKit {
  readonly code: string;
  readonly name: string;
  readonly priceMinor: number;
}

/**
 * A part by its code, or a jet picked by computation from a family. `operation` is for a part of an option: the key of the
 * option's operation that takes it from stock.
 */
export type PartNeed =
  | {
      readonly kind: "part";
      readonly code: string;
      readonly quantityMilli: number;
      readonly operation?: string;
      /** Code of the kit that it came out of, where that has a set price: one of the option's `kits`. */
      readonly kit?: string;
    }
  | {
      readonly kind: "jet";
      readonly setting: "mainJet" | "pilotJet";
      readonly family: string;
      readonly quantityMilli: number;
      readonly operation?: string;
    };

export interface HoldPoint {
  readonly kind: "reading" | "signature";
  readonly name: string;
  readonly unit?: string;
  readonly low?: number;
  readonly high?: number;
  readonly step?: number;
  /** Key of what the reading measures: lib/domain/tuning/measurables.ts. */
  readonly measures?: string;
  /** Where along the part it is read, in mm below a needle's shoulder; absent: on its straight part. */
  readonly station?: number;
  /** Position of the carburettor that is measured, from 1; absent for the only one, or for the whole engine. */
  readonly carburettor?: number;
}

export interface Operation {
  readonly key: string;
  readonly name: string;
  readonly instruction: string;
  readonly minutes: number;
  /** Code of the labour grade that prices it. */
  readonly grade: string;
  readonly accesses: readonly string[];
  /** Operations that must be done before this one, where both are in the plan. */
  readonly after: readonly string[];
  readonly parts: readonly PartNeed[];
  readonly holdPoints: readonly HoldPoint[];
  /** Keys of the settings that this operation makes, "needle" for the needle itself, "filter" and "silencer": their targets stand on its step. */
  readonly makes?: readonly string[];
  /** It makes swarf or dust, so that no access with the fuel system open is open while it is done. */
  readonly makesSwarf?: boolean;
  readonly cautions: readonly string[];
  readonly tools: readonly string[];
  /** Parts whose wear it inspects: with the step done, their kilometres count from there. */
  readonly inspects: readonly WearItem[];
  readonly recheck?: Recheck;
}

export interface Access {
  readonly key: string;
  readonly name: string;
  /** What its opening and its closing step say, where the words made of the name do not do. */
  readonly openAs?: string;
  readonly closeAs?: string;
  /** The fuel system is open while it is open. */
  readonly fuelOpen?: boolean;
  readonly openMinutes: number;
  readonly closeMinutes: number;
  readonly needs: readonly string[];
  readonly excludes: readonly string[];
  readonly closingChecks: readonly string[];
  readonly cautions: readonly string[];
  readonly tools: readonly string[];
  readonly recheck?: Recheck;
}

export type Rule =
  | {
      readonly kind: "needs";
      readonly option: string;
      readonly anyOf: readonly string[];
      readonly why: string;
    }
  | { readonly kind: "excludes"; readonly option: string; readonly other: string; readonly why: string }
  | {
      readonly kind: "warns";
      readonly option: string;
      readonly without?: string;
      readonly with?: string;
      readonly why: string;
    }
  | {
      readonly kind: "only when";
      readonly option: string;
      /** A fact of the model card: "carburettorType", "displacementCc", "cylinders", "ventedTo", ... */
      readonly fact: string;
      readonly op: "=" | "!=" | "<" | "<=" | ">" | ">=";
      readonly value: string | number;
      readonly why: string;
    };
