import { CheckField } from "@/app/_ui/CheckField";

interface Props {
  name: string;
  legend: string;
  hint?: string;
  /** What can be ticked. */
  of: readonly { readonly key: string; readonly name: string }[];
  ticked: readonly string[];
  none: string;
}

/** Several of a list, as ticks. */
export function Keys({ name, legend, hint, of, ticked, none }: Props) {
  const gone = ticked.filter((key) => !of.some((one) => one.key === key));
  return (
    <fieldset className="mb-4 min-w-0">
      <legend className="font-semibold text-[15px]">{legend}</legend>
      {hint && <p className="text-[14px] text-soft">{hint}</p>}
      {of.length === 0 && gone.length === 0 && <p className="text-[15px] text-soft">{none}</p>}
      <div className="grid gap-x-6 sm:grid-cols-2">
        {of.map((one) => (
          <CheckField
            key={one.key}
            name={`${name}[]`}
            value={one.key}
            label={one.name}
            initial={ticked.includes(one.key)}
            ruled
          />
        ))}
        {gone.map((key) => (
          <CheckField
            key={key}
            name={`${name}[]`}
            value={key}
            label={`“${key}”, which is gone`}
            initial
            ruled
          />
        ))}
      </div>
    </fieldset>
  );
}
