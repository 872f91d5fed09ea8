"use client";
import { useCombobox } from "downshift";
import { useEffect, useRef, useState } from "react";
import type { Pick } from "@/lib/schemas/picks";
import { CONTROL } from "./FieldFrame";
import { leavingChoosesNothing } from "./leavingChoosesNothing";
import { PickList } from "./PickList";
import type { PickFrom } from "./pickRows";
import { useRows } from "./useRows";

export interface CodeLiveProps {
  id: string;
  name: string;
  shop: string;
  from: PickFrom;
  initial: string;
  invalid: boolean;
  described: string | undefined;
}

/** A code with what the server knows by its letters or by words of a part's name; what is typed stays as typed. */
export function CodeLive({ id, name, shop, from, initial, ...props }: CodeLiveProps) {
  const [text, setText] = useState(initial);
  const [picked, setPicked] = useState<Pick | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const found = useRows(shop, from, text, [], text === initial || text === picked?.value);
  const box = useCombobox<Pick>({
    id,
    inputId: id,
    labelId: `${id}-label`,
    items: [...found.rows],
    itemToString: (row) => row?.value ?? "",
    inputValue: text,
    selectedItem: picked,
    onInputValueChange: ({ inputValue, type }) => {
      if (type === useCombobox.stateChangeTypes.InputChange) setText(inputValue);
    },
    onStateChange: ({ type, selectedItem }) => {
      const { ItemClick, InputKeyDownEnter } = useCombobox.stateChangeTypes;
      if ((type !== ItemClick && type !== InputKeyDownEnter) || !selectedItem) return;
      setPicked(selectedItem);
      setText(selectedItem.value);
    },
    stateReducer: leavingChoosesNothing,
  });
  useEffect(() => {
    // Whoever watches the form hears of a choice as of typing.
    if (picked) input.current?.dispatchEvent(new Event("input", { bubbles: true }));
  }, [picked]);
  return (
    <>
      <input
        {...box.getInputProps({ ref: input })}
        name={name}
        autoCapitalize="off"
        spellCheck={false}
        maxLength={120}
        aria-invalid={props.invalid || undefined}
        aria-describedby={[props.described, `${id}-found`].filter(Boolean).join(" ")}
        className={`${CONTROL} font-mono`}
      />
      {picked && text === picked.value && <p className="mt-1 text-[14px] text-soft">{picked.sub}</p>}
      <PickList id={id} box={box} found={found} />
    </>
  );
}
