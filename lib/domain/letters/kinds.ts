/** What a placeholder stands for, as the shop reads it beside its text. `block`: it may run over lines, so no subject takes it. */
interface Placeholder {
  readonly means: string;
  readonly block?: true;
}

export const PLACEHOLDERS = {
  acceptedBy: { means: "the name typed with the yes" },
  address: { means: "the shop's address", block: true },
  amount: { means: "what it comes to" },
  asked: { means: "what is to be paid with the fees, where there are any" },
  answer: { means: "the shop's answer", block: true },
  answers: { means: "the answers that the customer can tap, a line for each", block: true },
  balance: { means: "what is to be paid in all, or what the customer has coming" },
  bankDetails: {
    means: "how to pay: account, reference and your note, where something is to be paid",
    block: true,
  },
  bike: { means: "year, make and model of the bike" },
  bring: { means: "the day and time at which it is brought" },
  check: { means: "the number by which the enclosed copy can be checked" },
  choices: { means: "what can be chosen, a line for each", block: true },
  deposit: { means: "the deposit, where one is asked" },
  due: { means: "the day it is due" },
  fee: { means: "the fees of this reminder and of those before it, where there are any" },
  follow: { means: "that the link in the quote's letter goes on as the job's", block: true },
  from: { means: "the first day of the statement" },
  greeting: { means: "a greeting with the name, or without where none is known" },
  hours: { means: "the opening hours, a line for each day", block: true },
  job: { means: "the job's number" },
  left: { means: "what is still to be paid" },
  link: { means: "the customer's own link", block: true },
  linkUntil: { means: "the last day on which the link opens" },
  name: { means: "the customer's name" },
  number: { means: "the number of the invoice or receipt" },
  offer: { means: "the next times that are free" },
  phone: { means: "the shop's phone" },
  purpose: { means: "what it is for" },
  question: { means: "what the customer asked", block: true },
  quote: { means: "the quote's number" },
  reach: { means: "“call” with the shop's phone, or “answer this mail”" },
  ready: { means: "when the bike is planned to be ready" },
  shop: { means: "the shop's name" },
  starts: { means: "when the work starts" },
  title: { means: "what the work is called" },
  total: { means: "the total price" },
  until: { means: "the last day of the statement" },
  validUntil: { means: "the last day of the quote" },
  was: { means: "the time that no longer holds" },
  what: { means: "invoice, credit note or receipt" },
  wish: { means: "when the customer would like it, where they said so" },
  words: { means: "what you write for this one letter", block: true },
  work: { means: "the work, a line for each part of it", block: true },
  zone: { means: "the time zone of the shop's clock" },
} as const satisfies Record<string, Placeholder>;

export type PlaceholderName = keyof typeof PLACEHOLDERS;

/** Every letter may use these: they are of the shop. */
export const COMMON = ["shop", "phone", "address", "reach"] as const satisfies readonly PlaceholderName[];

interface Letter {
  readonly title: string;
  /** When it is written. */
  readonly when: string;
  /** What it may use besides the common ones. */
  readonly may: readonly PlaceholderName[];
  /** What its text cannot do without. */
  readonly needs: readonly PlaceholderName[];
  /** Whether it is on where the shop has said nothing. */
  readonly on: boolean;
  /** Written by the rounds so many days before or after; null: by hand alone, until the shop says how many. */
  readonly days?: number | null;
}

const QUOTE = ["name", "quote", "title", "bike", "total", "choices", "validUntil", "link"] as const;
const BOOKED = ["name", "work", "bike", "bring", "starts", "ready", "zone"] as const;
const MONEY = ["name", "title", "amount", "bankDetails", "link"] as const;
const LATE = [
  "greeting",
  "number",
  "purpose",
  "due",
  "left",
  "fee",
  "asked",
  "bankDetails",
  "words",
  "link",
  "linkUntil",
] as const;
const INVOICE = [
  "greeting",
  "what",
  "number",
  "purpose",
  "amount",
  "due",
  "bankDetails",
  "link",
  "linkUntil",
] as const;

/** The letters that a shop writes to its customers. */
export const LETTERS = {
  quote: { title: "Quote", when: "as a quote is sent", may: QUOTE, needs: ["link"], on: true },
  reminder: {
    title: "Reminder of a quote",
    when: "by hand, and once by the rounds where Settings says after how many days",
    may: [...QUOTE, "words"],
    needs: ["link"],
    on: true,
  },
  variation: {
    title: "More work on a job",
    when: "as a quote for more work is sent",
    may: [...QUOTE, "job"],
    needs: ["link"],
    on: true,
  },
  answer: {
    title: "Answer to a question",
    when: "as a customer's question is answered",
    may: ["name", "quote", "question", "answer"],
    needs: ["answer"],
    on: true,
  },
  yes: {
    title: "Quote accepted",
    when: "as a quote is accepted",
    may: [
      "name",
      "acceptedBy",
      "quote",
      "bike",
      "work",
      "total",
      "deposit",
      "bankDetails",
      "job",
      "wish",
      "follow",
      "check",
    ],
    needs: [],
    on: true,
  },
  booking: { title: "Booking", when: "as a booking is made", may: BOOKED, needs: ["bring"], on: true },
  change: {
    title: "Change of a booking",
    when: "as a booking is moved",
    may: BOOKED,
    needs: ["bring"],
    on: true,
  },
  cancelled: {
    title: "Booking cancelled",
    when: "as a booking is cancelled",
    may: ["name", "work", "bike", "was", "zone"],
    needs: ["was"],
    on: true,
  },
  missed: {
    title: "Did not come",
    when: "as it is recorded that a bike did not come",
    may: ["name", "work", "bike", "was", "offer", "zone"],
    needs: ["was"],
    on: true,
  },
  dayBefore: {
    title: "The day before",
    when: "by the rounds, on the day before the bike is brought",
    may: BOOKED,
    needs: ["bring"],
    on: false,
  },
  ready: {
    title: "Bike ready",
    when: "by hand, from the job",
    may: ["name", "bike", "title", "hours", "link", "number", "left", "bankDetails"],
    needs: ["link"],
    on: true,
  },
  invoice: {
    title: "Invoice or credit note",
    when: "by hand, from the invoice",
    may: INVOICE,
    needs: ["link"],
    on: true,
  },
  receipt: {
    title: "Receipt",
    when: "by hand, after a sale over the counter",
    may: INVOICE,
    needs: ["link"],
    on: true,
  },
  paymentReminder: {
    title: "Payment reminder",
    when: "by hand, from a late invoice; by the rounds where Shop > Reminders says so",
    may: LATE,
    needs: ["link", "left"],
    on: true,
  },
  paymentReminder2: {
    title: "Second payment reminder",
    when: "by hand, from a late invoice; by the rounds where Shop > Reminders says so",
    may: LATE,
    needs: ["link", "left"],
    on: true,
  },
  paymentReminder3: {
    title: "Last payment reminder",
    when: "by hand, from a late invoice; by the rounds where Shop > Reminders says so",
    may: LATE,
    needs: ["link", "left"],
    on: true,
  },
  statement: {
    title: "Statement of account",
    when: "by hand, from the customer's statement",
    may: ["greeting", "from", "until", "balance", "bankDetails", "words"],
    needs: [],
    on: true,
  },
  depositRequest: {
    title: "Deposit request",
    when: "by hand, from a job whose deposit is not paid",
    may: MONEY,
    needs: ["amount", "bankDetails"],
    on: true,
  },
  paymentReceived: {
    title: "Payment received",
    when: "by hand, from a payment or a deposit",
    may: MONEY,
    needs: ["amount"],
    on: true,
  },
  paidBack: {
    title: "Money paid back",
    when: "by hand, from money that went back",
    may: MONEY,
    needs: ["amount"],
    on: true,
  },
  howRuns: {
    title: "How does it run",
    when: "by the rounds, some days after the work was finished",
    may: ["name", "bike", "title", "answers"],
    needs: [],
    on: false,
    days: 14,
  },
} as const satisfies Record<string, Letter>;

export type LetterKind = keyof typeof LETTERS;
export const LETTER_KINDS = Object.keys(LETTERS) as readonly LetterKind[];

/** What is said of one letter by whoever writes it: a text for each of its placeholders, empty where there is nothing to say. */
export type LetterValues<K extends LetterKind> = Readonly<Record<(typeof LETTERS)[K]["may"][number], string>>;

/** A letter's own facts in one shape, whichever it is. */
export const letterOf = (kind: LetterKind): Letter => LETTERS[kind];

/** All placeholders that a letter may use, its own first. */
export const usable = (kind: LetterKind): readonly PlaceholderName[] => [...letterOf(kind).may, ...COMMON];
