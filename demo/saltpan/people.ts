import type { SheetValue } from "@/lib/domain/sheets/check";
import { names } from "../seasons/people";
import type { Chance } from "../work/chance";
import type { DemoBike, DemoCustomer } from "../work/garage";
import type { DemoModel } from "./models";

/** The first fourteen own the bikes that are in the shop this week. */
const NAMES = [
  "Ines Valdborg",
  "Oda Fenn",
  "Bram Oyelaran",
  "Tamsin Quarrie",
  "Leif Marchetti",
  "Dorrie Akande",
  "Hollis Brandt",
  "Wen Tarrow",
  "Calla Ruiz-Penn",
  "Ivo Strand",
  "Merrin Osei",
  "Teodor Lask",
  "Junia Peverell",
  "Gantry Wells Couriers",
  "Abel Nyland",
  "Rosa Tindall",
  "Kit Hargrave",
  "Noor Castellan",
  "Piers Wollaston",
  "Edda Moran",
  "Fergus Abiola",
  "Silke Dunmore",
  "Otis Varga",
  "Hana Littleby",
  "Quentin Rowe",
  "Asta Kowalt",
  "Mabel Drayson",
  "Corin Falk",
  "Yara Benning",
  "Lachlan Teague",
  "Vesna Marsh",
  "Dunstable Farm Hire",
  "Roan Ellery",
  "Priya Halloran",
  "Sol Umber",
] as const;

const STREETS = [
  "Weighbridge Lane",
  "Old Rail Road",
  "Kiln Street",
  "Saltbush Avenue",
  "Quandong Court",
  "Ore Siding",
  "Mallee Track",
];
const TOWNS = ["Gantry Wells SA", "Corrigan Flat SA", "Pinnaroo Bore SA", "Lower Tolley SA"];
const BUSINESSES: Readonly<Record<string, string>> = {
  "Gantry Wells Couriers": "",
  "Dunstable Farm Hire": "",
};

const FIRSTS = [
  "Alma",
  "Bertil",
  "Cato",
  "Dilys",
  "Enzo",
  "Freya",
  "Goran",
  "Hester",
  "Imre",
  "Jolan",
  "Kerr",
];
const LASTS = [
  "Ashgrove",
  "Bellamine",
  "Corvane",
  "Drumlan",
  "Eskdale-Rowe",
  "Farrowby",
  "Glasson",
  "Hathern",
];

/** The shop's customers; `more` of them beside the named ones. */
export function customers(chance: Chance, more = 0): DemoCustomer[] {
  return [...NAMES, ...names(FIRSTS, LASTS, more)].map((name, at) => {
    const mailed = at % 3 !== 2;
    const business =
      BUSINESSES[name] === undefined ? {} : { business: { taxNumber: BUSINESSES[name] ?? "" } };
    const trade =
      name in BUSINESSES
        ? { discount: { percent: "7.5", name: "Fleet" } }
        : at % 11 === 5
          ? { discount: { percent: "5", name: "Club" } }
          : {};
    return {
      name,
      phone: `08 5550 00${String(10 + at).padStart(2, "0")}`,
      ...(mailed ? { email: `${name.toLowerCase().replace(/[^a-z]+/g, ".")}@example.com` } : {}),
      address: `${chance.between(2, 88)} ${chance.pick(STREETS)}\n${chance.pick(TOWNS)}`,
      notes: at % 9 === 4 ? "Call before noon; works nights." : "",
      ...business,
      ...trade,
    };
  });
}

type Key = DemoModel["key"];

/** Models of the bikes in the shop this week, in the customers' order; the rest are dealt out. */
const THIS_WEEK: readonly Key[] = [
  "drover580",
  "trail400",
  "drover580",
  "drover580",
  "trail400",
  "drover580",
  "trail400",
  "twin750",
  "trail400",
  "drover580",
  "twin750",
  "trail400",
  "hack350",
  "drover580",
];
const DEALT: readonly Key[] = [
  "drover580",
  "trail400",
  "drover580",
  "twin750",
  "trail400",
  "drover580",
  "hack350",
  "drover580",
  "trail400",
  "twin750",
];

const COMPLAINTS: Readonly<Record<Key, readonly string[]>> = {
  drover580: [
    "Flat from quarter throttle, hunts at 90 km/h",
    "Pops on the overrun since the new silencer",
    "Wants more pull on the range road",
    "Hesitates when opened from closed",
  ],
  trail400: [
    "Hard to start cold, dies at the first junction",
    "Runs rich since moving up from the coast",
    "Surges on a steady throttle",
    "Smells of fuel at idle",
  ],
  twin750: [
    "Shakes at idle, left pipe cooler",
    "Coughs at small throttle",
    "One side fouls its plug",
    "Idle hangs after a long ride",
  ],
  hack350: ["Four-strokes at full throttle", "Drips overnight", "Will not idle hot"],
};
const COLOURS = ["sand", "dark green", "white", "red", "black", "blue", "orange"];
const COUNT = 45;

/** The place of the first bike whose owner is none of the named customers. */
export const FIRST_MORE = COUNT;

/** What is dealt out at a place of the list. */
export const modelOf = (at: number): Key => THIS_WEEK[at] ?? (DEALT[at % DEALT.length] as Key);

export function bikes(
  models: readonly DemoModel[],
  cards: ReadonlyMap<Key, number>,
  chance: Chance,
  more = 0,
): DemoBike[] {
  return Array.from({ length: COUNT + more }, (_, at) => {
    const key = modelOf(at);
    const model = models.find((each) => each.key === key) as DemoModel;
    const from = Number(model.core.yearFrom);
    return {
      customer: ownerAt(at),
      modelCardId: cards.get(key) ?? 0,
      year: at === 0 ? 2006 : from + chance.between(0, Number(model.core.yearTo) - from),
      plate: `SW${String(104 + at * 7)}${"ABCDEFGHJK"[at % 10]}`,
      frameNumber: `${key.slice(0, 2).toUpperCase()}${String(chance.between(100_000, 999_999))}`,
      colour: chance.pick(COLOURS),
      odometerKm: chance.between(9, 68) * 1000 + chance.between(0, 999),
      complaint: chance.pick(COMPLAINTS[key]),
      found: found(model, chance),
      ranAtM: chance.share() < 0.25 ? chance.pick([30, 60, 720]) : 410,
      ...(at === 0
        ? { felt: { throttle: "quarter", condition: "steady", engine: "hot", sign: "lean" } }
        : {}),
    };
  });
}

function ownerAt(bike: number): number {
  if (bike >= COUNT) return NAMES.length + bike - COUNT;
  return bike < NAMES.length ? bike : (bike - NAMES.length) * 2 + 14;
}

/** What stood on a bike when it came: mostly as delivered, sometimes what an owner before had tried. */
function found(model: DemoModel, chance: Chance): SheetValue[] {
  const fact = (key: string) => Number(model.facts[key]?.[0] ?? 0);
  const tried = chance.share() < 0.25 ? 2.5 : 0;
  const turns = fact("deliveredScrewTurns") + chance.pick([-0.25, 0, 0, 0.125, 0.25]);
  const single: (readonly [setting: string, value: number, how: string])[] = [
    ["mainJet", fact("deliveredMainJet") + tried, "read"],
    ["pilotJet", fact("deliveredPilotJet"), "read"],
    ["clipPosition", fact("deliveredClipPosition"), "read"],
    ["mixtureScrewTurns", turns, "measured"],
    ["floatHeightMm", fact("deliveredFloatHeightMm") + chance.pick([-0.5, 0, 0, 0.5]), "measured"],
    ["airboxOpeningMm", 0, "measured"],
    ["snorkelFitted", 1, "read"],
    ["idleSpeedRpm", fact("deliveredIdleSpeedRpm") + 50 * chance.between(-1, 2), "measured"],
    ...(model.key === "drover580"
      ? ([
          ["needleSeatMm", 2.6 + 0.05 * chance.between(0, 4), "measured"],
          ["springLengthMm", 108 - chance.between(0, 2), "measured"],
          ["liftHoleCount", 1, "read"],
          ["liftHoleMm", 2.3, "measured"],
          ["headerWeldMm", 3, "assumed"],
        ] as const)
      : []),
  ];
  const each = Number(model.core.carburettors);
  return Array.from({ length: each }, (_, at) =>
    single.map(([setting, value, how]) => ({
      carburettor: at + 1,
      setting,
      value: Number(value.toFixed(3)),
      how,
    })),
  ).flat();
}
