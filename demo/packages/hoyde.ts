import type { Recipe } from "@/lib/domain/packages/recipe";
import { access, operation, option } from "@/lib/domain/packages/writing";
import { pieces } from "./parts";

/** Settings for the mountains, for the shop in the north: Norwegian throughout. */
export const HOYDE: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [
    { key: "dyser", name: "Dyser", choose: "any" },
    { key: "stell", name: "Stell", choose: "any" },
  ],
  options: [
    option(
      "hoveddyse",
      "dyser",
      "Hoveddyse etter høyde",
      "Dysen som passer lufta der du kjører.",
      ["sett-hoveddyse"],
      {
        parts: [{ kind: "jet", setting: "mainJet", family: "Hoveddyser, store runde", quantityMilli: 1000 }],
        changes: [{ setting: "mainJet", change: "computed" }],
        preset: true,
        roadUse: true,
      },
    ),
    option(
      "skrue",
      "dyser",
      "Blandeskrue og tomgang",
      "Stilles varm, og skrives ned i omdreininger.",
      ["still-tomgang"],
      {
        changes: [
          { setting: "mixtureScrewTurns", change: "computed" },
          { setting: "idleSpeedRpm", change: "computed" },
        ],
        preset: true,
        roadUse: true,
      },
    ),
    option(
      "flottor",
      "stell",
      "Flottørhus renset",
      "Vann og smuss ut, flottørhøyden målt.",
      ["rens-flottorhus"],
      { preset: true },
    ),
    option("luftfilter", "stell", "Nytt luftfilter", "Oljet skum, ny kant.", ["bytt-luftfilter"], {
      parts: [pieces("LF-400", 1)],
    }),
  ],
  operations: [
    operation(
      "rens-flottorhus",
      "Rens flottørhuset og mål flottøren",
      "Vann og smuss ut. Flottøren skal hvile på tungen.",
      15,
      ["flottorhus"],
      {
        parts: [pieces("OR-40", 1)],
        holdPoints: [
          {
            kind: "reading",
            name: "Flottørhøyde",
            unit: "mm",
            low: 12,
            high: 15,
            step: 0.5,
            measures: "floatHeightMm",
          },
        ],
        tools: ["Flottørmål"],
      },
    ),
    operation("sett-hoveddyse", "Sett inn hoveddysen", "Dratt til er ikke stramt.", 10, ["flottorhus"], {
      after: ["rens-flottorhus"],
      makes: ["mainJet"],
      holdPoints: [{ kind: "signature", name: "Dysenummeret lest høyt" }],
      tools: ["Dysenøkkel 6 mm"],
    }),
    operation("bytt-luftfilter", "Bytt luftfilter", "Jevnt oljet, fett på kanten.", 10, ["sete"]),
    operation(
      "still-tomgang",
      "Still blandeskrue og tomgang, varm",
      "Innen en halv omdreining, så tomgangen.",
      12,
      ["motor-i-gang"],
      {
        after: ["sett-hoveddyse", "rens-flottorhus", "bytt-luftfilter"],
        makes: ["mixtureScrewTurns", "idleSpeedRpm"],
        holdPoints: [
          {
            kind: "reading",
            name: "Tomgang, varm",
            unit: "o/min",
            low: 1250,
            high: 1500,
            step: 50,
            measures: "idleSpeedRpm",
          },
        ],
        tools: ["Lambdasonde"],
      },
    ),
  ],
  accesses: [
    access("sete", "Setet av", 2, 2, { openAs: "Ta av: setet", closeAs: "Sett på: setet" }),
    access("tank", "Tanken av", 8, 9, {
      openAs: "Ta av: tanken",
      closeAs: "Sett på: tanken",
      needs: ["sete"],
      closingChecks: ["Bensinslangen på og sikret", "Tankluftingen åpen"],
      cautions: ["Bensindamp: ingen åpen ild, ingen gnister."],
    }),
    access("vendt", "Forgasseren vendt mot venstre", 5, 6, {
      openAs: "Vend forgasseren mot venstre",
      closeAs: "Vend forgasseren tilbake",
      needs: ["tank"],
      closingChecks: ["Lufteslangen på, ikke knekt"],
    }),
    access("flottorhus", "Flottørhuset av", 3, 4, {
      fuelOpen: true,
      openAs: "Ta av: flottørhuset",
      closeAs: "Sett på: flottørhuset",
      needs: ["vendt"],
      closingChecks: ["O-ringen i sporet", "Bensin fra hjelpeflaska i to minutter, ingen drypp"],
      cautions: ["Små krysskruer her er JIS: feil trekker ødelegger dem."],
      tools: ["JIS krysstrekker nr. 2, ikke Phillips"],
    }),
    access("motor-i-gang", "Motoren i gang, avsug på", 2, 1, {
      openAs: "Start motoren, avsug på",
      closeAs: "Stopp motoren",
      excludes: ["tank", "flottorhus"],
      cautions: ["Kullos: avsug på potta, porten åpen."],
      tools: ["Avsugslange"],
    }),
  ],
  rules: [
    {
      kind: "only when",
      option: "hoveddyse",
      fact: "carburettors",
      op: "=",
      value: 1,
      why: "Pakken er for én forgasser.",
    },
    {
      kind: "warns",
      option: "hoveddyse",
      without: "skrue",
      why: "En ny hoveddyse flytter også blandeskruen.",
    },
  ],
};
