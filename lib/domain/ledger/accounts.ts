/** What an account is: it decides on which side it grows, and whether it begins each year at nothing. */
export const ACCOUNT_KINDS = ["asset", "liability", "equity", "income", "expense"] as const;
export type AccountKind = (typeof ACCOUNT_KINDS)[number];

export interface LedgerAccount {
  readonly code: string;
  readonly name: string;
  readonly kind: AccountKind;
  /** How the tax office groups it, where it asks for that (SAF-T Financial: GroupingCategory and GroupingCode); else empty. */
  readonly groupCategory: string;
  readonly groupCode: string;
}

/** What happens in the shop that an account is needed for, and which kinds of account will do. */
const USES = {
  receivable: ["What customers owe", ["asset"]],
  deposits: ["Deposits held, before they are invoiced", ["liability"]],
  customerBalance: ["What is owed back to customers", ["liability"]],
  cash: ["Cash", ["asset"]],
  card: ["Card payments", ["asset"]],
  transfer: ["Bank transfers", ["asset"]],
  tax: ["Tax charged", ["liability"]],
  workTaxed: ["Work, taxed", ["income"]],
  partsTaxed: ["Parts, taxed", ["income"]],
  workZero: ["Work at rate zero", ["income"]],
  partsZero: ["Parts at rate zero", ["income"]],
  workExempt: ["Work without tax", ["income"]],
  partsExempt: ["Parts without tax", ["income"]],
  rounding: ["Cash rounding", ["income", "expense"]],
  writeOff: ["Written off", ["expense"]],
  cashDifference: ["Differences of the counted drawer", ["income", "expense"]],
  drawerMoves: ["Cash put into the drawer or taken out", ["asset", "liability", "equity"]],
  stock: ["Stock", ["asset"]],
  costOfGoods: ["Cost of parts used and sold", ["expense"]],
  stockDifferences: ["Counted, scrapped and divided stock", ["income", "expense"]],
  goodsReceived: ["Received, supplier's invoice not entered here", ["liability"]],
  openingStock: ["Stock there was at the start", ["equity"]],
  priorResult: ["Result of the years before", ["equity"]],
} as const satisfies Record<string, readonly [string, readonly AccountKind[]]>;

export type AccountUse = keyof typeof USES;
export const ACCOUNT_USES = Object.keys(USES) as readonly AccountUse[];

/** What a use is called. */
export const nameOfUse = (use: AccountUse): string => USES[use][0];

/** True where an account of this kind will do for the use. */
export const fitsUse = (use: AccountUse, kind: AccountKind): boolean =>
  (USES[use][1] as readonly AccountKind[]).includes(kind);

/** Which account each use goes to, by code. */
export type AccountMap = Readonly<Record<AccountUse, string>>;

/** Income and expense begin each year at nothing; what they came to goes to the result of the years before. */
export const ofTheYear = (kind: AccountKind): boolean => kind === "income" || kind === "expense";
