"use client";
import { useId, useRef } from "react";
import { TextArea } from "@/app/_ui/TextArea";

const MOST = 400_000;

/** A file's text, chosen or pasted: it is sent as text either way. */
export function FileText() {
  const id = useId();
  const box = useRef<HTMLDivElement>(null);
  const read = async (file: File | undefined) => {
    const area = box.current?.querySelector("textarea");
    if (file && area && file.size <= MOST) area.value = await file.text();
  };
  return (
    <div ref={box}>
      <div className="mb-4">
        <label htmlFor={id} className="mb-1 block font-semibold text-[15px]">
          File
        </label>
        <input
          id={id}
          type="file"
          accept="application/json,.json"
          onChange={(event) => read(event.currentTarget.files?.[0])}
          className="min-h-11 pointer-coarse:min-h-12"
        />
      </div>
      <TextArea
        name="file"
        label="Or its text"
        rows={10}
        required
        className="[&_textarea]:font-mono [&_textarea]:text-[14px]"
      />
    </div>
  );
}
