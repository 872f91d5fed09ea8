import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { ACCOUNT_FORMS, type Account, readAccount } from "@/lib/domain/money/account";
import { kidOf } from "@/lib/domain/money/checkDigits";
import { type PayAsk, type PayTo, payRows } from "@/lib/domain/money/payAsk";
import { Refusal } from "@/lib/domain/refusal";
import type { AccountInput } from "@/lib/schemas/account";
import { wordsIn } from "@/lib/words/words";

const ACCOUNT = {
  form: true,
  holder: true,
  branch: true,
  number: true,
  iban: true,
  bic: true,
  kid: true,
  version: true,
} as const;

type Db = Pick<ShopTx, "bankAccount">;

export type KeptAccount = Account & { readonly kid: boolean; readonly version: number };

/** The account that customers pay to; null where none is entered in fields. */
export async function accountOf(db: Db): Promise<KeptAccount | null> {
  const row = await db.bankAccount.findUnique({ where: { id: 1 }, select: ACCOUNT });
  if (!row) return null;
  const form = ACCOUNT_FORMS.find((one) => one === row.form);
  if (!form) throw new Error(`An account is not written as “${row.form}”.`);
  return { ...row, form };
}

/** What a payment is for: an invoice, or the deposit of a quote, with its number in the series and as it is written. */
export interface PayFor {
  readonly kind: "invoice" | "deposit";
  readonly number: number;
  readonly written: string;
}

/** The account with what a payment for a paper is recognised by. */
export function payToFor(account: KeptAccount | null, { kind, number, written }: PayFor): PayTo | null {
  if (!account) return null;
  const { version: _, ...to } = account;
  return { ...to, reference: to.kid ? kidOf(kind, number) : written };
}

/** How the shop asks for some money now. */
export async function payAskFor(db: Db & Pick<ShopTx, "settings">, of: PayFor): Promise<PayAsk> {
  const [{ name, legalName, bankDetails }, account] = await Promise.all([
    db.settings.findUniqueOrThrow({
      where: { id: 1 },
      select: { name: true, legalName: true, bankDetails: true },
    }),
    accountOf(db),
  ]);
  return {
    payTo: payToFor(account, of),
    reference: of.written,
    note: bankDetails,
    name: legalName || name,
  };
}

/** How to pay, as a letter says it: a line for each part of the account, the reference, and the shop's note. */
export function payText(ask: PayAsk, locale: string): string {
  const say = wordsIn(locale);
  const rows = payRows(ask).map(({ name, value }) =>
    say("paying.row", { name: say(`paying.${name}`), value }),
  );
  return [...rows, ask.note].filter(Boolean).join("\n");
}

const changed = () =>
  new Refusal("Somebody else changed the account in the meantime.", "Load the page again.", {}, "conflict");

/** Keeps the account that papers print from now on; those issued so far keep what they printed. Throws Refusal for one that cannot be. */
export async function saveAccount(shop: ShopHandle, input: AccountInput): Promise<void> {
  const { version, kid } = input;
  const data = { ...readAccount(input), kid: kid && input.form === "no" };
  await shop.write(async (tx) => {
    if (version > 0)
      await demandOne(
        tx.bankAccount.updateMany({
          where: { id: 1, version },
          data: { ...data, version: { increment: 1 } },
        }),
        changed,
      );
    else {
      if (await accountOf(tx)) throw changed();
      await tx.bankAccount.create({ data: { id: 1, ...data }, select: { id: true } });
    }
    await audit(tx, shop, "changed", "account", 1, data);
  });
}

/** Papers print no account from now on, only the shop's own words. */
export async function removeAccount(shop: ShopHandle, { version }: { version: number }): Promise<void> {
  await shop.write(async (tx) => {
    await demandOne(tx.bankAccount.deleteMany({ where: { id: 1, version } }), changed);
    await audit(tx, shop, "removed", "account", 1);
  });
}
