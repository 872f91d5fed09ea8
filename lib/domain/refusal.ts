/** A failure the person can act on: shown to them with what to do. Anything else thrown is a bug. */
export class Refusal extends Error {
  override readonly name = "Refusal";
  constructor(
    /** What happened, in a sentence. */
    message: string,
    /** What the person can do about it, in a sentence. */
    readonly remedy: string = "",
    /** Messages per form field, keyed by the field's name. */
    readonly fields: Readonly<Record<string, string>> = {},
    /**
     * "missing" becomes a 404, "forbidden" a 403, "conflict" a changed record, "tooOften" a 429, "busy" a 503 (the same again may
     * do later), "signedOut" a 401; "repeated" is a request that was carried out before with other contents.
     */
    readonly kind:
      | "refused"
      | "missing"
      | "forbidden"
      | "conflict"
      | "tooOften"
      | "busy"
      | "signedOut"
      | "repeated" = "refused",
  ) {
    super(message);
  }
}

/** A question that an act asks before it is done, answered by the same form sent again. */
export interface Ask {
  /** Field that the answer is sent in. */
  readonly name: string;
  readonly question: string;
  readonly options: readonly { readonly value: string; readonly label: string }[];
  /** A day and time to enter with one of the options, as a datetime-local field holds it. */
  readonly moment?: { readonly name: string; readonly label: string; readonly initial: string };
}

/** An act that needs an answer first: nothing of it is done until then. */
export class Asking extends Refusal {
  constructor(
    message: string,
    remedy: string,
    readonly asks: readonly Ask[],
    fields: Readonly<Record<string, string>> = {},
  ) {
    super(message, remedy, fields, "conflict");
  }
}

/** A number without the rounding dust of the arithmetic that it came from. */
const written = (value: number) => Number(value.toPrecision(12));

/** A quantity outside the range in which a calculation holds: names the quantity, its value and its range. */
export class OutOfRange extends Refusal {
  constructor(
    readonly quantity: string,
    readonly given: number,
    readonly low: number,
    readonly high: number,
    readonly unit: string = "",
  ) {
    const range = `${written(low)} to ${written(high)}${unit && ` ${unit}`}`;
    super(
      `${quantity} is ${written(given)}${unit && ` ${unit}`}, outside ${range}.`,
      `Enter a ${quantity} from ${range}.`,
    );
  }
}

/** Returns `given` if it is a finite number in [low, high]; else throws OutOfRange. */
export function within(quantity: string, given: number, low: number, high: number, unit = ""): number {
  if (!(given >= low && given <= high)) throw new OutOfRange(quantity, given, low, high, unit);
  return given;
}
