"use client";
import { CheckField } from "./CheckField";
import { useFormField } from "./formContext";
import { NumberField, type NumberFieldProps } from "./NumberField";

type Props = Omit<NumberFieldProps, "name" | "step" | "min">;

/** The odometer. Where a reading was asked about, a tick says that it is right as typed. */
export function OdometerField(props: Props) {
  const { error } = useFormField("odometerRight");
  return (
    <>
      <NumberField name="odometerKm" step={1} min={0} {...props} />
      {error && <CheckField name="odometerRight" label="The odometer is right as typed" />}
    </>
  );
}
