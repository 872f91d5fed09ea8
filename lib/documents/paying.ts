import { type PayAsk, payCode, payRows } from "@/lib/domain/money/payAsk";
import { wordsIn } from "@/lib/words/words";
import { squares } from "./labelSymbol";
import { facts, label, say } from "./look";
import type { Content } from "./pdf";

/** So wide is the code on paper, in points: 30 mm, of which a phone reads even the longest (judgement). */
const CODE_WIDTH = 85;

/** Where to pay and with which reference; and as a code for a bank's app, where the currency and the account allow one. */
export function howToPay(ask: PayAsk, currency: string, amountMinor: number, locale: string): Content {
  const words = wordsIn(locale);
  const rows: Content = {
    stack: [
      facts(payRows(ask).map(({ name, value }) => [words(`paying.${name}`), value])),
      ...(ask.note ? [say(ask.note, { margin: [0, 4, 0, 0] })] : []),
    ],
  };
  const code = payCode(ask, currency, amountMinor);
  if (code === null) return rows;
  return {
    columns: [
      { ...rows, width: "*" },
      { stack: [drawn(code), label(words("paying.code"))], width: 150 },
    ],
    columnGap: 24,
  };
}

function drawn(code: string): Content {
  const { width, dark } = squares(code);
  const unit = CODE_WIDTH / width;
  return {
    canvas: dark.map((one) => ({
      type: "rect" as const,
      x: one.x * unit,
      y: one.y * unit,
      w: one.width * unit,
      h: one.height * unit,
      color: "#000000",
      lineWidth: 0,
    })),
  };
}
