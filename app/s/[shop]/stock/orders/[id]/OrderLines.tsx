import { cx } from "@/app/_ui/cx";
import { Empty } from "@/app/_ui/Empty";
import { dateText, instantText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { State } from "@/app/_ui/State";
import type { OrderView } from "@/lib/data/orders/list";
import { unitPriceText } from "@/lib/domain/money/unitPrice";
import { amountText } from "../../amount";
import { ChangeLine, OpenLineActs } from "./LineActs";

export interface OrderLinesProps {
  shop: string;
  order: OrderView;
  locale: string;
  zone: string;
  currency: string;
  mayWrite: boolean;
}

/** Each line with what came on it, at what cost, and what is open. */
export function OrderLines({ shop, order, locale, zone, currency, mayWrite }: OrderLinesProps) {
  if (order.lines.length === 0)
    return <Empty title="The draft is empty." text="Add a part by its code, or give the draft up." />;
  const money = (e4: number) => `${unitPriceText(e4, currency, locale)} ${currency}`;
  return (
    <ul>
      {order.lines.map((line) => {
        const text = (milli: number) => amountText(milli, line.part.unit, locale);
        const done = line.openMilli === 0;
        return (
          <li key={line.id} className="border-hair border-b py-3">
            <div className="flex flex-wrap items-baseline gap-x-4 gap-y-1">
              <Link
                href={`/s/${shop}/stock/${line.partId}`}
                className="inline-flex min-h-6 items-center font-mono font-semibold pointer-coarse:min-h-12"
              >
                {line.part.code}
              </Link>
              <span className="min-w-0 flex-1">
                {line.part.name}
                {line.code && <span className="font-mono text-[14px] text-soft"> {line.code}</span>}
              </span>
              <span className="font-mono text-lg">{text(line.quantityMilli)}</span>
              {line.unitCostE4 !== null && (
                <span className="font-mono text-soft">at {money(line.unitCostE4)}</span>
              )}
            </div>
            <div className="mt-1 flex flex-wrap items-center gap-x-4 gap-y-1 text-[15px]">
              {line.job && (
                <Link
                  href={`/s/${shop}/jobs/${line.job.id}`}
                  className="inline-flex min-h-6 items-center pointer-coarse:min-h-12"
                >
                  for job {line.job.number}
                </Link>
              )}
              {order.placed &&
                (done ? (
                  <State shape="filled" tone="pine">
                    {line.cancelledMilli > 0 ? `${text(line.cancelledMilli)} cancelled` : "all of it came"}
                  </State>
                ) : (
                  <State shape={line.late ? "triangle" : "square"} tone={line.late ? "oxide" : "brass"}>
                    {text(line.openMilli)} open,{" "}
                    {line.dueOn
                      ? `${line.late ? "was due" : "due"} ${dateText(line.dueOn, locale)}`
                      : "no day given"}
                  </State>
                ))}
              {line.part.replacedBy && (
                <State shape="triangle" tone="oxide">
                  made no more:{" "}
                  <Link href={`/s/${shop}/stock/${line.part.replacedBy.id}`}>
                    {line.part.replacedBy.code}
                  </Link>{" "}
                  in its place
                </State>
              )}
              {line.why && <span className="text-soft">{line.why}</span>}
              {mayWrite && (
                <span className={cx("ml-auto flex flex-wrap gap-x-4")}>
                  {order.state === "draft" && (
                    <ChangeLine
                      shop={shop}
                      lineId={line.id}
                      code={line.part.code}
                      unit={line.part.unit}
                      quantity={String(line.quantityMilli / 1000)}
                    />
                  )}
                  {order.placed && !done && (
                    <OpenLineActs
                      shop={shop}
                      lineId={line.id}
                      code={line.part.code}
                      dueOn={line.dueOn ?? ""}
                      today={order.today}
                    />
                  )}
                </span>
              )}
            </div>
            {line.receipts.length > 0 && (
              <ul className="mt-1 text-[14px] text-soft">
                {line.receipts.map((move) => (
                  <li key={move.id}>
                    <span className="font-mono">{text(move.quantityMilli)}</span> came{" "}
                    {instantText(move.at.toISOString(), locale, zone, "date")}
                    {move.unitCostE4 !== null && ` at ${money(move.unitCostE4)}`}
                    {move.unitCostE4 !== null &&
                      line.unitCostE4 !== null &&
                      move.unitCostE4 !== line.unitCostE4 && (
                        <strong className="text-brass">
                          {" "}
                          ({move.unitCostE4 > line.unitCostE4 ? "+" : "−"}
                          {money(Math.abs(move.unitCostE4 - line.unitCostE4))} against the order
                          {line.part.averageE4 != null && `; average is ${money(line.part.averageE4)}`})
                        </strong>
                      )}
                  </li>
                ))}
              </ul>
            )}
          </li>
        );
      })}
    </ul>
  );
}
