import { Decimal } from "../money/decimal";
import { roundHalfAway } from "../money/round";
import { searchKey } from "../searchKey";
import { readNumber, scaled } from "./numbers";
import type { FileRow, FileTerms, Mapping, RowNote, RowProblem } from "./types";

const LONGEST_PRICE = 60;
/** No known word is nearly as long. */
const LONGEST_WORD = 80;

/** Reads the cells of one row, collecting what is wrong and what was done to them. */
export class Cells {
  readonly problems: RowProblem[] = [];
  readonly notes: RowNote[] = [];

  constructor(
    readonly row: FileRow,
    private readonly headings: readonly string[],
    private readonly mapping: Mapping,
    readonly terms: FileTerms,
  ) {}

  /** A cell's text, single spaces; "" when blank or not in the file. */
  raw(key: string): string {
    const column = this.mapping[key];
    return column === null || column === undefined
      ? ""
      : (this.row.cells[column] ?? "").replace(/\s+/gu, " ").trim();
  }

  refuse(key: string, wrong: string, remedy: string): undefined {
    const column = this.mapping[key];
    const heading = column === null || column === undefined ? "" : (this.headings[column] ?? "");
    this.problems.push({
      line: this.row.line,
      column: heading,
      value: this.raw(key).slice(0, 80),
      wrong,
      remedy,
    });
    return undefined;
  }

  note(text: string): void {
    this.notes.push({ line: this.row.line, text });
  }

  text(key: string, max: number): string | undefined {
    const text = this.raw(key);
    if (text === "") return undefined;
    if (text.includes("\uFFFD"))
      return this.refuse(
        key,
        "has letters that were not understood",
        "Save the file as UTF-8 and choose it again.",
      );
    if (text.length > max) return this.refuse(key, `is longer than ${max} characters`, "Shorten it.");
    return text;
  }

  needed(key: string, max: number, name: string): string | undefined {
    if (this.raw(key) === "")
      return this.refuse(key, `has no ${name}`, `Fill in the ${name}, or take the row out.`);
    return this.text(key, max);
  }

  /** One of a few words, by any of the ways people write them; marks and case make no difference. */
  word<T extends string>(key: string, ways: Readonly<Record<string, T>>, choices: string): T | undefined {
    const text = searchKey(this.raw(key).slice(0, LONGEST_WORD)).replace(/\.$/u, "");
    if (text === "") return undefined;
    return Object.hasOwn(ways, text)
      ? ways[text]
      : this.refuse(key, "is not one of the words known here", `Write ${choices}.`);
  }

  /** A number in [low, high], times `factor` kept as a whole number. */
  number(
    key: string,
    rule: { low: number; high: number; factor?: number; times?: number },
  ): number | undefined {
    const text = this.raw(key);
    if (text === "") return undefined;
    const read = readNumber(text, this.terms.mark);
    if ("wrong" in read) return this.refuse(key, read.wrong, read.remedy);
    const value = new Decimal(read.value).mul(rule.times ?? 1);
    if (value.lt(rule.low) || value.gt(rule.high))
      return this.refuse(
        key,
        `is outside ${rule.low} to ${rule.high}`,
        `Enter a number from ${rule.low} to ${rule.high}.`,
      );
    const whole = scaled(value.toFixed(), rule.factor ?? 1);
    return typeof whole === "number" ? whole : this.refuse(key, whole.wrong, whole.remedy);
  }

  /**
   * Money per unit in ten-thousandths of the major unit. The shop's currency code or a sign before or after is left off;
   * another currency's code is refused. `per` divides: a price per metre kept per mm is divided by 1000.
   */
  money(key: string, per: number): number | undefined {
    const text = this.raw(key);
    if (text === "") return undefined;
    if (text.length > LONGEST_PRICE) return this.refuse(key, "is no price", "Write a price, such as 12.50.");
    const bare = text.replace(/^(?:[$€£¥]|kr\.?|[A-Z]{1,2}\$)\s*|\s*(?:[$€£¥]|kr\.?|,-|:-)$/giu, "").trim();
    const code = /^([A-Za-z]{3})\b\s*|\s*\b([A-Za-z]{3})$/u.exec(bare);
    const said = (code?.[1] ?? code?.[2])?.toUpperCase();
    if (said && said !== this.terms.currency)
      return this.refuse(
        key,
        `is in ${said}, and this shop keeps money in ${this.terms.currency}`,
        `Convert it to ${this.terms.currency}.`,
      );
    const read = readNumber(
      code ? bare.replace(code[0], "").replace(/^(?:[$€£¥]|kr\.?)/iu, "") : bare,
      this.terms.mark,
    );
    if ("wrong" in read) return this.refuse(key, read.wrong, read.remedy);
    const exact = new Decimal(read.value).mul(10_000).div(per);
    if (exact.lt(0)) return this.refuse(key, "is less than nothing", "Enter 0 or more.");
    if (per === 1 || exact.isInteger()) {
      const whole = scaled(exact.div(10_000).toFixed(), 10_000);
      return typeof whole === "number" ? whole : this.refuse(key, whole.wrong, whole.remedy);
    }
    const rounded = roundHalfAway(exact);
    this.note(
      `${text} for ${per} is ${exact.div(10_000).toString()} for one: kept as ${new Decimal(rounded).div(10_000).toString()}, to four decimals.`,
    );
    return rounded;
  }
}
