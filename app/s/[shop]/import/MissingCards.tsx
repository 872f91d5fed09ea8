"use client";
import { useId } from "react";
import { CONTROL } from "@/app/_ui/FieldFrame";

export interface CardMissing {
  readonly make: string;
  readonly model: string;
  readonly rows: number;
  readonly displacementCc?: number;
  readonly cylinders?: number;
  readonly carburettors?: number;
  readonly carburettorType?: string;
}

/** What was answered about a model, as it was typed. */
export type CardAnswer = Readonly<
  Record<"displacementCc" | "cylinders" | "carburettors" | "carburettorType", string>
>;
export type CardAnswers = Readonly<Record<string, CardAnswer>>;

export const cardName = (card: { readonly make: string; readonly model: string }): string =>
  `${card.make} ${card.model}`;

/** What is known of a model before anything is typed. */
export const answerOf = (card: CardMissing): CardAnswer => ({
  displacementCc: String(card.displacementCc ?? ""),
  cylinders: String(card.cylinders ?? 1),
  carburettors: String(card.carburettors ?? card.cylinders ?? 1),
  carburettorType: card.carburettorType ?? "",
});

/** One question list for all models without a card: the least that a card needs. */
export function MissingCards({
  cards,
  answers,
  onAnswer,
}: {
  cards: readonly CardMissing[];
  answers: CardAnswers;
  onAnswer: (answers: CardAnswers) => void;
}) {
  const id = useId();
  return (
    <div className="mt-5">
      <h3 className="font-semibold">
        {cards.length === 1 ? "One model has no card yet" : `${cards.length} models have no card yet`}
      </h3>
      <p className="text-[15px] text-soft">
        Answer these and check again: the cards are made with the bikes, and can be filled in later.
      </p>
      <ul className="mt-2 border-rule border-t">
        {cards.map((card, at) => {
          const name = cardName(card);
          const answer = answers[name] ?? answerOf(card);
          const put = (key: keyof CardAnswer, value: string) =>
            onAnswer({ ...answers, [name]: { ...answer, [key]: value } });
          const number = (key: "displacementCc" | "cylinders" | "carburettors", label: string) => (
            <label htmlFor={`${id}${at}${key}`} className="min-w-0 text-[15px]">
              {label}
              <input
                id={`${id}${at}${key}`}
                inputMode="numeric"
                maxLength={5}
                value={answer[key]}
                onChange={({ currentTarget: { value } }) => put(key, value)}
                className={CONTROL}
              />
            </label>
          );
          return (
            <li key={name} className="border-hair border-b py-3">
              <p>
                <strong>{name}</strong>{" "}
                <span className="text-soft">
                  {card.rows} {card.rows === 1 ? "row" : "rows"}
                </span>
              </p>
              <div className="mt-1 grid grid-cols-3 gap-3 sm:grid-cols-[1fr_1fr_1fr_2fr]">
                {number("displacementCc", "cc")}
                {number("cylinders", "Cylinders")}
                {number("carburettors", "Carburettors")}
                <label htmlFor={`${id}${at}type`} className="col-span-3 min-w-0 text-[15px] sm:col-span-1">
                  Type
                  <select
                    id={`${id}${at}type`}
                    value={answer.carburettorType}
                    onChange={({ currentTarget: { value } }) => put("carburettorType", value)}
                    className={CONTROL}
                  >
                    <option value="">choose</option>
                    <option value="constant vacuum">Constant vacuum</option>
                    <option value="mechanical slide">Mechanical slide</option>
                  </select>
                </label>
              </div>
            </li>
          );
        })}
      </ul>
    </div>
  );
}
