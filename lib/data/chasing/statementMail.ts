import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import type { StatementPaper } from "@/lib/domain/chasing/statement";
import type { LetterValues } from "@/lib/domain/letters/kinds";
import { formatMoney } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import { accountWords } from "@/lib/words/account";
import { wordsIn } from "@/lib/words/words";
import { encloseIn } from "../mail/attachments";
import { demandWritten, writeLetterIn } from "../mail/letters";
import { payText } from "../shop/account";
import { statementPaper } from "./statement";

interface Asked {
  readonly customerId: number;
  readonly from: string;
  readonly to: string;
  /** What whoever writes adds; may be empty. */
  readonly words: string;
  readonly key?: string | undefined;
}

/** Mails a customer the statement of their account over some days, as it stands now. */
export async function mailStatement(shop: ShopHandle, input: Asked): Promise<{ to: string }> {
  const { customerId, from, to } = input;
  const address = await shop.write((tx) =>
    once(tx, shop, "mailed a statement", input, async () => {
      const customer = await tx.customer.findUnique({
        where: { id: customerId },
        select: { name: true, phone: true, email: true, noLetters: true },
      });
      const paper = await statementPaper(tx, customerId, { from, to }, shop.now);
      if (!customer || !paper)
        throw new Refusal("There is no such customer.", "Choose one from the list.", {}, "missing");
      const written = await writeLetterIn(tx, shop, {
        kind: "statement",
        to: customer,
        locale: paper.locale,
        values: statementValues(paper, input.words),
        about: { noun: "customer", nounId: customerId },
      });
      const mailId = demandWritten(written, customer);
      await encloseIn(tx, mailId, {
        noun: "statement",
        nounId: customerId,
        form: "pdf",
        name: `statement-${from}-${to}.pdf`,
        printed: { format: "throttlewright-statement", version: 1, ...paper },
      });
      await audit(tx, shop, "mailed a statement", "customer", customerId, {
        from,
        to,
        closingMinor: paper.closingMinor,
      });
      return customer.email;
    }),
  );
  return { to: address };
}

/** What the letter with a statement says. */
export function statementValues(paper: StatementPaper, words: string): LetterValues<"statement"> {
  const { buyer, locale, currency, closingMinor } = paper;
  const say = wordsIn(locale);
  const said = accountWords(locale);
  const day = (text: string) => say("mails.day", { day: new Date(`${text}T00:00:00Z`) });
  const amount = formatMoney(Math.abs(closingMinor), currency, locale);
  return {
    greeting: buyer.name ? say("mails.dear", { name: buyer.name }) : say("mails.goodDay"),
    from: day(paper.from),
    until: day(paper.to),
    balance:
      closingMinor === 0 ? said.nothing : `${closingMinor > 0 ? said.owing : said.inFavour}: ${amount}`,
    bankDetails: paper.ask ? payText(paper.ask, locale) : "",
    words,
  };
}
