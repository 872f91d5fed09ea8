"use client";
import { useId, useRef, useState } from "react";
import { FieldError } from "@/app/_ui/FieldFrame";
import { TextArea } from "@/app/_ui/TextArea";

const MOST = 400_000;

/** A file's text, chosen or pasted: it is sent as text either way. */
export function FileText() {
  const id = useId();
  const box = useRef<HTMLDivElement>(null);
  const [unread, setUnread] = useState("");
  const read = async (file: File | undefined) => {
    const area = box.current?.querySelector("textarea");
    if (!file || !area) return;
    const tooLong = file.size > MOST;
    setUnread(tooLong ? `${file.name} is longer than any package can be (400 kB). Choose another file.` : "");
    if (!tooLong) area.value = await file.text();
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
          aria-invalid={unread ? true : undefined}
          aria-describedby={unread ? `${id}-error` : undefined}
          className="min-h-11 pointer-coarse:min-h-12"
        />
        <FieldError id={id} error={unread} />
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
