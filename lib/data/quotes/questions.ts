import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import type { Answer } from "@/lib/schemas/quoteLife";
import { customerLocale } from "@/lib/words/language";
import { writeLetterIn } from "../mail/letters";

/** More open questions than this are a conversation for the phone. */
const MOST_OPEN = 5;

/** A question that a customer asks from the quote's page: kept with the quote, and mailed to the shop where it has an address. */
export async function askByLink(
  shop: ShopHandle,
  input: { revisionId: number; text: string; key?: string | undefined },
): Promise<void> {
  await shop.write((tx) =>
    once(tx, shop, "asked a question", input, async () => {
      const { number, quote } = await tx.quoteRevision.findUniqueOrThrow({
        where: { id: input.revisionId },
        select: {
          number: true,
          quote: { select: { id: true, number: true, customer: { select: { name: true } } } },
        },
      });
      const open = await tx.quoteQuestion.findMany({
        where: { quoteId: quote.id, answeredAt: null },
        select: { id: true },
        orderBy: { id: "asc" },
        take: MOST_OPEN,
      });
      if (open.length >= MOST_OPEN)
        throw new Refusal(
          "Your earlier questions are still waiting.",
          "Call the shop, or wait for its answer.",
        );
      const { id } = await tx.quoteQuestion.create({
        data: { quoteId: quote.id, revision: number, text: input.text, askedAt: shop.now },
        select: { id: true },
      });
      await tellShop(tx, shop, `Question on quote ${quote.number}`, [
        `${quote.customer.name} asks about quote ${quote.number}, revision ${number}:`,
        "",
        input.text,
        "",
        "Answer it on the quote's page.",
      ]);
      await audit(tx, shop, "asked about", "quote", quote.id, { number: quote.number });
      return id;
    }),
  );
}

async function tellShop(tx: ShopTx, shop: ShopHandle, subject: string, lines: string[]): Promise<void> {
  const { email } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { email: true } });
  if (email)
    await tx.mail.create({
      data: { to: email, subject, text: lines.join("\n"), createdAt: shop.now },
      select: { id: true },
    });
}

/** The shop's answer: shown on the customer's page, and mailed where an address is known. A question is answered once. */
export async function answerQuestion(shop: ShopHandle, input: Answer): Promise<{ mailed: boolean }> {
  return shop.write(async (tx) => {
    const question = await tx.quoteQuestion.findUnique({
      where: { id: input.questionId },
      select: {
        text: true,
        quote: {
          select: {
            id: true,
            number: true,
            customer: { select: { name: true, email: true, language: true, noLetters: true } },
          },
        },
      },
    });
    if (!question) throw new Refusal("There is no such question.", "Open the quote again.", {}, "missing");
    await demandOne(
      tx.quoteQuestion.updateMany({
        where: { id: input.questionId, answeredAt: null },
        data: { answer: input.answer, answeredAt: shop.now, answeredBy: shop.by.name },
      }),
      () => new Refusal("Someone answered this already.", "Open the quote again to read it.", {}, "conflict"),
    );
    const { quote } = question;
    const { locale } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { locale: true } });
    const written = await writeLetterIn(tx, shop, {
      kind: "answer",
      to: quote.customer,
      locale: customerLocale(locale, quote.customer.language),
      values: {
        name: quote.customer.name,
        quote: String(quote.number),
        question: question.text,
        answer: input.answer,
      },
      about: { noun: "quote", nounId: quote.id },
    });
    await audit(tx, shop, "answered a question on", "quote", quote.id, { number: quote.number });
    return { mailed: "mailId" in written };
  });
}

/** Questions that wait for an answer, oldest first. */
export async function openQuestions(shop: ShopHandle, most = 8) {
  return shop.read.quoteQuestion.findMany({
    where: { answeredAt: null },
    select: {
      id: true,
      text: true,
      askedAt: true,
      quote: { select: { id: true, number: true, customer: { select: { name: true } } } },
    },
    orderBy: { id: "asc" },
    take: most,
  });
}
