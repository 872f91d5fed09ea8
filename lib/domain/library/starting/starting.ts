import type { LibraryEntry } from "../entry";
import { AIRBOX } from "./airbox";
import { BOWL } from "./bowl";
import { HEADER } from "./header";
import { OUT } from "./out";
import { RUNNING } from "./running";
import { SWUNG } from "./swung";
import { TANK } from "./tank";
import { TOP } from "./top";

/**
 * The library that a shop may take over, whole or entry by entry, and then has as its own. Minutes, limits and rules are
 * starting figures: common practice, no source. No torque has a figure: its place waits for the shop's own, with a source.
 */
export const STARTING_LIBRARY: readonly LibraryEntry[] = [
  ...TANK,
  ...AIRBOX,
  ...TOP,
  ...BOWL,
  ...SWUNG,
  ...OUT,
  ...HEADER,
  ...RUNNING,
];
