"use client";
import { useContext } from "react";
import { CheckField } from "./CheckField";
import { FormContext } from "./formContext";

/** After somebody else changed the record: a box to save over exactly the version that was shown. Nothing before. */
export function KeepMine() {
  const { fields } = useContext(FormContext);
  const name = Object.keys(fields ?? {}).find((key) => key.startsWith("over."));
  if (!name) return null;
  return <CheckField key={name} name={name} label="Save mine over these changes" />;
}
