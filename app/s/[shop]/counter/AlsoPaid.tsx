import { SelectField } from "@/app/_ui/SelectField";
import { TypedFigure } from "@/app/_ui/TypedFigure";
import { METHOD_WORDS, PAYMENT_METHODS } from "@/lib/schemas/paymentWords";

interface AlsoPaidProps {
  /** What pays the rest. */
  method: string;
  also: string;
  amount: string;
  currency: string;
  onMethod: (method: string) => void;
  onAmount: (amount: string) => void;
}

/** Part of a sale paid another way: so much by card, the rest in cash. */
export function AlsoPaid({ method, also, amount, currency, onMethod, onAmount }: AlsoPaidProps) {
  const others = PAYMENT_METHODS.filter((value) => value !== method);
  return (
    <fieldset
      className="flex min-w-0 flex-wrap gap-x-4"
      onChange={({ target }) => target instanceof HTMLSelectElement && onMethod(target.value)}
    >
      <SelectField
        key={method}
        name="alsoMethod"
        label="Part of it another way"
        initial={others.some((value) => value === also) ? also : ""}
        options={[
          { value: "", label: "no" },
          ...others.map((value) => ({ value, label: METHOD_WORDS[value] })),
        ]}
      />
      {also !== "" && (
        <TypedFigure
          label={`Of that, ${currency}`}
          name="alsoAmount"
          value={amount}
          onType={onAmount}
          className="mb-4 max-w-48"
          hint="The rest is paid as chosen above."
        />
      )}
    </fieldset>
  );
}
