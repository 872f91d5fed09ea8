import { fragment } from "xmlbuilder2";
import type { BookedEntry, BookedLine } from "@/lib/domain/ledger/book";
import { standardTaxCode } from "@/lib/domain/ledger/norwegian";
import type { CustomerRow, LedgerRange, TrialRow } from "@/lib/domain/ledger/trial";
import { majorText } from "@/lib/domain/money/major";

/** A party as the file names it. */
export interface SaftParty {
  /** Organisation number; empty where there is none. */
  readonly number: string;
  readonly name: string;
  readonly address: string;
}

export interface SaftHead {
  readonly company: SaftParty & { readonly phone: string; readonly email: string; readonly contact: string };
  readonly createdOn: string;
  readonly softwareVersion: string;
  readonly currency: string;
  readonly range: LedgerRange;
  readonly rows: readonly TrialRow[];
  readonly customers: readonly (SaftParty & { readonly id: number; readonly rows: readonly CustomerRow[] })[];
  /** The taxes of the entries: category and rate. */
  readonly taxes: readonly { readonly category: string; readonly rateBp: number }[];
  readonly entries: number;
  readonly debitMinor: number;
}

type Journal = BookedEntry["journal"];
const SAFT_JOURNALS: readonly Journal[] = ["document", "payment", "drawer", "stock"];

const NAMESPACE = "urn:StandardAuditFile-Taxation-Financial:NO";

const cut = (text: string, most: number) => [...text].slice(0, most).join("").trim();
const long = (text: string) => cut(text, 256);

/** An XML object's text without a heading; characters that XML does not know are left out. */
const xml = (content: object): string =>
  fragment({ invalidCharReplacement: "" }, content).toString({ prettyPrint: true });

/** What a file begins with: header, accounts, customers and tax codes, and the totals of the entries that follow. */
export function saftHead(file: SaftHead): string {
  const { currency } = file;
  const money = (minor: number) => majorText(minor, currency);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<AuditFile xmlns="${NAMESPACE}">`,
    xml({ Header: headerOf(file) }),
    xml({ MasterFiles: mastersOf(file) }),
    "<GeneralLedgerEntries>",
    xml({ NumberOfEntries: file.entries }),
    // Each entry balances, so debits are as much as credits.
    xml({ TotalDebit: money(file.debitMinor) }),
    xml({ TotalCredit: money(file.debitMinor) }),
    "",
  ].join("\n");
}

function headerOf({ company, createdOn, softwareVersion, currency, range }: SaftHead): object {
  const { number, contact, phone, email, ...party } = company;
  return {
    AuditFileVersion: "1.30",
    AuditFileCountry: "NO",
    AuditFileDateCreated: createdOn,
    SoftwareCompanyName: "Throttlewright",
    SoftwareID: "Throttlewright",
    SoftwareVersion: cut(softwareVersion, 18),
    Company: {
      RegistrationNumber: cut(number, 35),
      ...named(party),
      Contact: {
        ContactPerson: { FirstName: "NotUsed", LastName: cut(contact, 70) },
        ...(phone ? { Telephone: cut(phone, 18) } : {}),
        ...(email ? { Email: cut(email, 70) } : {}),
      },
      TaxRegistration: { TaxRegistrationNumber: cut(number, 35), TaxAuthority: "Skatteetaten" },
    },
    DefaultCurrencyCode: currency,
    SelectionCriteria: { SelectionStartDate: range.from, SelectionEndDate: range.to },
    TaxAccountingBasis: "A",
  };
}

/** A name and an address: its last line is read as a postal code and a place where it looks like that. */
function named({ name, address }: Pick<SaftParty, "name" | "address">): object {
  const lines = address
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter(Boolean);
  const [, code, place] = /^(\d{4})\s+(.+)$/.exec(lines.at(-1) ?? "") ?? [];
  const street = (code ? lines.slice(0, -1) : lines).join(", ");
  const parts = {
    ...(street ? { StreetName: long(street) } : {}),
    ...(place ? { City: long(place) } : {}),
    ...(code ? { PostalCode: code } : {}),
  };
  return { Name: long(name), ...(Object.keys(parts).length > 0 ? { Address: parts } : {}) };
}

function mastersOf({ rows, customers, taxes, currency }: SaftHead): object {
  const side = (when: "Opening" | "Closing", minor: number) => ({
    [`${when}${minor < 0 ? "Credit" : "Debit"}Balance`]: majorText(Math.abs(minor), currency),
  });
  return {
    GeneralLedgerAccounts: {
      Account: rows.map(({ account, openingMinor, closingMinor }) => ({
        AccountID: cut(account.code, 70),
        AccountDescription: long(account.name),
        GroupingCategory: long(account.groupCategory),
        GroupingCode: cut(account.groupCode, 35),
        AccountType: "GL",
        ...side("Opening", openingMinor),
        ...side("Closing", closingMinor),
      })),
    },
    ...(customers.length === 0
      ? {}
      : {
          Customers: {
            Customer: customers.map(({ id, number, rows: balances, ...party }) => ({
              ...(number ? { RegistrationNumber: cut(number, 35) } : {}),
              ...named(party),
              CustomerID: String(id),
              BalanceAccount: balances.map(({ code, openingMinor, closingMinor }) => ({
                AccountID: cut(code, 70),
                ...side("Opening", openingMinor),
                ...side("Closing", closingMinor),
              })),
            })),
          },
        }),
    ...(taxes.length === 0
      ? {}
      : {
          TaxTable: {
            TaxTableEntry: {
              TaxType: "MVA",
              Description: "Merverdiavgift",
              TaxCodeDetails: taxes.map((tax) => ({
                TaxCode: taxCode(tax),
                TaxPercentage: tax.rateBp / 100,
                Country: "NO",
                StandardTaxCode: standardTaxCode(tax),
                BaseRate: 100,
              })),
            },
          },
        }),
  };
}

/** The shop's own code of a tax: each category and rate has one. */
const taxCode = ({ category, rateBp }: { category: string; rateBp: number }) => `${category}-${rateBp / 100}`;

const JOURNALS: Readonly<Record<Journal, readonly [description: string, type: string]>> = {
  document: ["Issued documents", "AR"],
  payment: ["Money received, given back and written off", "GL"],
  drawer: ["Cash counted, put in and taken out", "GL"],
  stock: ["Stock at cost", "GL"],
};

/** So many entries are written at a time. */
const AT_ONCE = 200;

/** What follows the head: each journal with its entries, written some at a time by `write` (saftTransactions), and the file's end. */
export async function* saftEntries(
  entries: readonly BookedEntry[],
  write: (some: readonly BookedEntry[]) => Promise<string> | string,
): AsyncGenerator<string, void, undefined> {
  for (const journal of SAFT_JOURNALS) {
    const own = entries.filter((entry) => entry.journal === journal);
    if (own.length === 0) continue;
    const [description, type] = JOURNALS[journal];
    const head = [{ JournalID: journal }, { Description: description }, { Type: type }].map(xml).join("\n");
    yield `<Journal>\n${head}\n`;
    for (let at = 0; at < own.length; at += AT_ONCE) yield await write(own.slice(at, at + AT_ONCE));
    yield "</Journal>\n";
  }
  yield "</GeneralLedgerEntries>\n</AuditFile>\n";
}

/** Some entries of one journal as transactions. */
export function saftTransactions({
  entries,
  currency,
}: {
  readonly entries: readonly BookedEntry[];
  readonly currency: string;
}): string {
  return entries.map((entry) => `${xml({ Transaction: transactionOf(entry, currency) })}\n`).join("");
}

function transactionOf(entry: BookedEntry, currency: string): object {
  const [year, month] = entry.day.split("-").map(Number);
  return {
    TransactionID: cut(entry.key, 70),
    Period: month,
    PeriodYear: year,
    TransactionDate: entry.day,
    VoucherType: cut(entry.name.replace(/\s+\S+$/, ""), 70),
    VoucherDescription: cut(entry.name, 70),
    Description: long(entry.text || entry.name),
    SystemEntryDate: entry.day,
    GLPostingDate: entry.day,
    Line: entry.lines.map((line, at) => lineOf(line, at, entry, currency)),
  };
}

function lineOf(line: BookedLine, at: number, entry: BookedEntry, currency: string): object {
  const { minor, tax, account, ofCustomer } = line;
  const amount = (value: number) => ({ Amount: majorText(Math.abs(value), currency) });
  return {
    RecordID: String(at + 1),
    AccountID: cut(account.code, 70),
    SourceDocumentID: cut(entry.name, 35),
    ...(ofCustomer && entry.customer ? { CustomerID: String(entry.customer.id) } : {}),
    Description: long(entry.text || entry.name),
    [minor < 0 ? "CreditAmount" : "DebitAmount"]: amount(minor),
    ...(tax
      ? {
          TaxInformation: {
            TaxType: "MVA",
            TaxCode: taxCode(tax),
            TaxPercentage: tax.rateBp / 100,
            Country: "NO",
            TaxBase: majorText(Math.abs(minor), currency),
            [minor < 0 || (minor === 0 && tax.taxMinor < 0) ? "CreditTaxAmount" : "DebitTaxAmount"]: amount(
              tax.taxMinor,
            ),
          },
        }
      : {}),
  };
}
