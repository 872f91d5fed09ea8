import type { SheetValue } from "@/lib/domain/sheets/check";
import type { DemoModel } from "../saltpan/models";
import { names } from "../seasons/people";
import type { DemoBike, DemoCustomer } from "../work/garage";

const NAMES = [
  "Eldrid Haugstøl",
  "Torvald Myrslett",
  "Ragna Lidbakk",
  "Sjur Brattespe",
  "Ylva Kvernmo",
  "Håkon Stølsdal",
  "Bergljot Rønnås",
  "Eirik Fossbråten",
  "Gyda Skaret",
  "Raukdalen Fjellferie",
];
const PLACES = ["Raukdalen", "Øvre Stølslia", "Kvernbygda"];

const FIRSTS = ["Aslaug", "Brede", "Dagny", "Embrik", "Frøydis", "Gaute", "Herborg"];
const LASTS = ["Nørstebakk", "Oppegjerde", "Rustlia", "Skogheimen", "Tverråsen"];

/** The shop's customers; `more` of them beside the named ones. */
export const northernCustomers = (more = 0): DemoCustomer[] =>
  [...NAMES, ...names(FIRSTS, LASTS, more)].map((name, at) => ({
    name,
    phone: `000 00 ${String(101 + at)}`,
    ...(at % 2 === 0 || at === 5 ? { email: `kunde${at + 1}@example.org` } : {}),
    address: `${["Elvevegen", "Setervegen", "Bakkavegen"][at % 3]} ${4 + at * 3}\n${PLACES[at % 3]}`,
    notes: at === 4 ? "Ring etter klokka ti." : "",
  }));

const KEYS: readonly DemoModel["key"][] = [
  "trail400",
  "drover580",
  "trail400",
  "hack350",
  "drover580",
  "trail400",
  "trail400",
  "drover580",
  "hack350",
  "trail400",
  "trail400",
  "drover580",
];
/** The place of the first bike whose owner is none of the named customers. */
export const FIRST_MORE = KEYS.length;

const COMPLAINTS = [
  "Går fett på høyfjellet",
  "Tung å starte i kulda",
  "Nøler ved kvart gass",
  "Drypper over natta",
  "Ujevn tomgang etter langtur",
];
const COLOURS = ["grønn", "rød", "hvit", "svart", "blå"];

export function northernBikes(
  models: readonly DemoModel[],
  cards: ReadonlyMap<DemoModel["key"], number>,
  more = 0,
): DemoBike[] {
  const keys = [
    ...KEYS,
    ...Array.from({ length: more }, (_, at) => KEYS[at % KEYS.length] as DemoModel["key"]),
  ];
  return keys.map((key, at) => {
    const model = models.find((each) => each.key === key) as DemoModel;
    return {
      customer: at < FIRST_MORE ? Math.min(at, NAMES.length - 1) : NAMES.length + at - FIRST_MORE,
      modelCardId: cards.get(key) ?? 0,
      year: Number(model.core.yearFrom) + (at % 7),
      plate: `RD ${10_240 + at * 37}`,
      frameNumber: `N${key.slice(0, 1).toUpperCase()}${720_100 + at * 613}`,
      colour: COLOURS[at % COLOURS.length] ?? "",
      odometerKm: 11_300 + (at % 20) * 3_470,
      complaint: COMPLAINTS[at % COMPLAINTS.length] ?? "",
      found: found(model),
      // Most were set up by the coast and came up the valley.
      ranAtM: at % 3 === 0 ? 640 : 60,
    };
  });
}

function found(model: DemoModel): SheetValue[] {
  const fact = (key: string) => Number(model.facts[key]?.[0] ?? 0);
  return [
    { carburettor: 1, setting: "mainJet", value: fact("deliveredMainJet"), how: "read" },
    { carburettor: 1, setting: "pilotJet", value: fact("deliveredPilotJet"), how: "read" },
    { carburettor: 1, setting: "clipPosition", value: fact("deliveredClipPosition"), how: "read" },
    { carburettor: 1, setting: "mixtureScrewTurns", value: fact("deliveredScrewTurns"), how: "measured" },
    { carburettor: 1, setting: "floatHeightMm", value: fact("deliveredFloatHeightMm"), how: "measured" },
    { carburettor: 1, setting: "idleSpeedRpm", value: fact("deliveredIdleSpeedRpm"), how: "measured" },
  ];
}
