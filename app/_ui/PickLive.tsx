"use client";
import { useCombobox } from "downshift";
import { useState } from "react";
import type { Pick } from "@/lib/schemas/picks";
import { CONTROL } from "./FieldFrame";
import { leavingChoosesNothing } from "./leavingChoosesNothing";
import { PickList } from "./PickList";
import { type PickFrom, rowText } from "./pickRows";
import { useRows } from "./useRows";

export interface PickLiveProps {
  id: string;
  shop: string;
  from: PickFrom;
  name: string;
  newest: readonly Pick[];
  picked: Pick | null;
  blank: string | undefined;
  required: boolean | undefined;
  invalid: boolean;
  described: string | undefined;
  /** Counts answers of the form: at each one the field shows `value` anew. */
  seq: number;
  value: string;
  onPick: (row: Pick | null) => void;
}

/** A record found by typing, by the combobox pattern. */
export function PickLive({ id, name, newest, picked, value, seq, onPick, ...props }: PickLiveProps) {
  const [text, setText] = useState(picked ? rowText(picked) : "");
  const chosen = picked !== null && text === rowText(picked);
  const found = useRows(props.shop, props.from, text, newest, chosen);
  // Words that choose nothing are sent as they are: the server asks for a choice, and no wrong one is taken.
  const sent = text.trim() === "" ? "" : chosen ? picked.value : `? ${text}`;
  const take = (row: Pick | null) => {
    setText(row ? rowText(row) : "");
    onPick(row);
  };
  const [answered, setAnswered] = useState(seq);
  if (answered !== seq) {
    setAnswered(seq);
    // Refused, it keeps what stands in it; taken, it begins anew.
    if (value !== sent) take(newest.find((row) => row.value === value) ?? null);
  }
  const box = useCombobox<Pick>({
    id,
    inputId: id,
    labelId: `${id}-label`,
    items: [...found.rows],
    itemToString: (row) => (row ? rowText(row) : ""),
    inputValue: text,
    selectedItem: picked,
    onInputValueChange: ({ inputValue, type }) => {
      if (type !== useCombobox.stateChangeTypes.InputChange) return;
      setText(inputValue);
      if (inputValue.trim() === "" && picked) onPick(null);
    },
    onStateChange: ({ type, selectedItem }) => {
      const { ItemClick, InputKeyDownEnter } = useCombobox.stateChangeTypes;
      if ((type === ItemClick || type === InputKeyDownEnter) && selectedItem) take(selectedItem);
    },
    stateReducer: leavingChoosesNothing,
  });
  const leave = () => {
    // A name typed in full is a choice.
    const same = found.rows.filter((row) => row.label.toLowerCase() === text.trim().toLowerCase());
    if (!chosen && !found.looking && same.length === 1) take(same[0] ?? null);
  };
  return (
    <>
      <input type="hidden" name={name} value={sent} readOnly data-focus={id} />
      <input
        {...box.getInputProps({ onBlur: leave })}
        placeholder={props.blank}
        required={props.required}
        autoCapitalize="off"
        spellCheck={false}
        enterKeyHint="search"
        maxLength={120}
        aria-invalid={props.invalid || undefined}
        aria-describedby={[props.described, `${id}-found`].filter(Boolean).join(" ")}
        className={CONTROL}
      />
      <PickList id={id} box={box} found={found} />
    </>
  );
}
