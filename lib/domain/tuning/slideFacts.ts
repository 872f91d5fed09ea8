import type { StandIns } from "./standIns";
import type { CardFacts, SettingValues } from "./targetTypes";

/** What moves a constant-vacuum slide, SI. */
export interface SlideFacts {
  readonly diaphragmM2: number;
  readonly slideMassKg: number;
  readonly springRate: number;
  readonly springFreeM: number;
  readonly springInstalledM: number;
  readonly springCoils: number | undefined;
}

/** Holding pressure (Pa) of a usual slide when down, and what it gains to full lift. Source: judgement. */
const CLOSED_PA = 1200;
const GAIN_PA = 1000;

/**
 * Slide, diaphragm and spring from card and reference settings; what is missing is chosen so that the slide holds 1200 Pa
 * down and 2200 Pa fully up (judgement). A mechanical slide has none: placeholders that nothing reads.
 */
export function slideFacts(
  card: CardFacts,
  settings: SettingValues,
  boreMm: number,
  cv: boolean,
  s: StandIns,
): SlideFacts {
  const freeMm = card.springFreeMm?.value ?? settings.springLengthMm ?? 106;
  const springCoils = card.springCoils?.value ?? settings.springCoils;
  if (!cv)
    return {
      diaphragmM2: 0.003,
      slideMassKg: 0.04,
      springRate: 100,
      springFreeM: 0.106,
      springInstalledM: 0.08,
      springCoils,
    };
  const diaphragmMm = s.number(card.diaphragmMm, "Diaphragm", () => 1.7 * boreMm, 0.1, [20, 150, "mm"]);
  const area = (Math.PI / 4) * (diaphragmMm / 1000) ** 2;
  const massG = s.number(card.slideMassG, "Slide mass", () => 40, 0.02, [1, 500, "g"]);
  const usualRate = () => (GAIN_PA * area) / (boreMm / 1000);
  const rate = s.number(card.springRateNPerM, "Slide spring rate", usualRate, 0.1, [5, 5000, "N/m"]);
  const preloadN = CLOSED_PA * area - (massG / 1000) * 9.80665;
  const usualLength = () => Math.max(10, freeMm - (1000 * preloadN) / rate);
  const installed = s.number(card.springInstalledMm, "Spring length, slide down", usualLength, 0.1, [
    5,
    300,
    "mm",
  ]);
  return {
    diaphragmM2: area,
    slideMassKg: massG / 1000,
    springRate: rate,
    springFreeM: freeMm / 1000,
    springInstalledM: installed / 1000,
    springCoils,
  };
}
