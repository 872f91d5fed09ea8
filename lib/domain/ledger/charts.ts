import type { AccountKind, AccountMap, AccountUse, LedgerAccount } from "./accounts";

/** A chart that a shop starts with; codes, names and uses are its own to change. */
export interface StartingChart {
  readonly accounts: readonly LedgerAccount[];
  readonly uses: AccountMap;
  readonly source: string;
  /** Month in which the books' year begins, 1 to 12. */
  readonly yearMonth: number;
}

type Row = readonly [
  code: string,
  name: string,
  kind: AccountKind,
  uses: readonly AccountUse[],
  group?: readonly [category: string, code: string],
];

const CURRENT_ASSET = "balanseverdiForOmloepsmiddel";
const CURRENT_DEBT = "kortsiktigGjeld";

const NORWAY: readonly Row[] = [
  ["1460", "Innkjøpte varer for videresalg", "asset", ["stock"], [CURRENT_ASSET, "1400"]],
  ["1500", "Kundefordringer", "asset", ["receivable"], [CURRENT_ASSET, "1500"]],
  ["1900", "Kontanter, NOK", "asset", ["cash"], [CURRENT_ASSET, "1900"]],
  ["1920", "Bankinnskudd", "asset", ["transfer"], [CURRENT_ASSET, "1920"]],
  ["1925", "Bankinnskudd, kortoppgjør", "asset", ["card"], [CURRENT_ASSET, "1920"]],
  ["1579", "Andre kortsiktige fordringer", "asset", ["drawerMoves"], [CURRENT_ASSET, "1570"]],
  ["2050", "Annen egenkapital", "equity", ["priorResult", "openingStock"], ["egenkapital", "2050"]],
  ["2700", "Utgående merverdiavgift, høy sats", "liability", ["tax"], [CURRENT_DEBT, "2740"]],
  ["2900", "Forskudd fra kunder", "liability", ["deposits"], [CURRENT_DEBT, "2900"]],
  ["2960", "Annen påløpt kostnad", "liability", ["goodsReceived"], [CURRENT_DEBT, "2990"]],
  ["2999", "Annen kortsiktig gjeld", "liability", ["customerBalance"], [CURRENT_DEBT, "2990"]],
  [
    "3000",
    "Salgsinntekt handelsvarer, avgiftspliktig, høy sats",
    "income",
    ["partsTaxed"],
    ["salgsinntekt", "3000"],
  ],
  [
    "3020",
    "Salgsinntekt tjenester, avgiftspliktig, høy sats",
    "income",
    ["workTaxed"],
    ["salgsinntekt", "3000"],
  ],
  [
    "3100",
    "Salgsinntekt handelsvarer, innenlands, avgiftsfri",
    "income",
    ["partsZero"],
    ["salgsinntekt", "3100"],
  ],
  [
    "3120",
    "Salgsinntekt tjenester, innenlands, avgiftsfri",
    "income",
    ["workZero"],
    ["salgsinntekt", "3100"],
  ],
  [
    "3200",
    "Salgsinntekt handelsvarer, unntatt avgiftsplikt",
    "income",
    ["partsExempt"],
    ["salgsinntekt", "3200"],
  ],
  [
    "3220",
    "Salgsinntekt tjenester, unntatt avgiftsplikt",
    "income",
    ["workExempt"],
    ["salgsinntekt", "3200"],
  ],
  [
    "4390",
    "Vareforbruk og beholdningsendring",
    "expense",
    ["costOfGoods", "stockDifferences"],
    ["varekostnad", "4005"],
  ],
  [
    "7798",
    "Annen kostnad, fradragsberettiget",
    "expense",
    ["rounding", "cashDifference"],
    ["annenDriftskostnad", "7700"],
  ],
  ["7830", "Tap på fordringer, fradragsberettiget", "expense", ["writeOff"], ["annenDriftskostnad", "7830"]],
];

const GENERIC: readonly Row[] = [
  ["1000", "Cash", "asset", ["cash"]],
  ["1010", "Bank", "asset", ["transfer"]],
  ["1020", "Card payments on their way", "asset", ["card"]],
  ["1030", "Cash out of the drawer, on its way", "asset", ["drawerMoves"]],
  ["1100", "Accounts receivable", "asset", ["receivable"]],
  ["1200", "Stock", "asset", ["stock"]],
  ["2100", "Customer deposits", "liability", ["deposits"]],
  ["2110", "Customer balances", "liability", ["customerBalance"]],
  ["2150", "Goods received, not invoiced", "liability", ["goodsReceived"]],
  ["2200", "Tax payable", "liability", ["tax"]],
  ["3100", "Retained earnings", "equity", ["priorResult", "openingStock"]],
  ["4000", "Sales of work", "income", ["workTaxed"]],
  ["4010", "Sales of parts", "income", ["partsTaxed"]],
  ["4100", "Sales of work, zero-rated", "income", ["workZero"]],
  ["4110", "Sales of parts, zero-rated", "income", ["partsZero"]],
  ["4200", "Sales of work, without tax", "income", ["workExempt"]],
  ["4210", "Sales of parts, without tax", "income", ["partsExempt"]],
  ["5000", "Cost of goods", "expense", ["costOfGoods"]],
  ["5100", "Stock differences", "expense", ["stockDifferences"]],
  ["6100", "Bad debts", "expense", ["writeOff"]],
  ["6200", "Cash rounding and differences", "expense", ["rounding", "cashDifference"]],
];

/** From memory: the tax or company year that small businesses there commonly keep. Others: the calendar year. */
const YEAR_MONTH: Readonly<Record<string, number>> = { AU: 7, NZ: 4, GB: 4 };

const NORWEGIAN_SOURCE =
  "NS 4102 as in the Norwegian Tax Administration's public list of standard accounts, grouped by its list for the income statement 2025-2026; 1925 and 4390 are sub-accounts of our own. Confirm with your accountant.";

/** The chart that a shop in a country (ISO 3166-1 alpha-2) starts with. */
export function startingChart(country: string): StartingChart {
  const rows = country === "NO" ? NORWAY : GENERIC;
  return {
    accounts: rows.map(([code, name, kind, , group]) => ({
      code,
      name,
      kind,
      groupCategory: group?.[0] ?? "",
      groupCode: group?.[1] ?? "",
    })),
    uses: Object.fromEntries(
      rows.flatMap(([code, , , uses]) => uses.map((use) => [use, code])),
    ) as AccountMap,
    source: country === "NO" ? NORWEGIAN_SOURCE : "A plain chart, from memory. Confirm with your accountant.",
    yearMonth: YEAR_MONTH[country] ?? 1,
  };
}
