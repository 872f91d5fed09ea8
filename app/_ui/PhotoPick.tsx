"use client";
import type { ReactNode } from "react";
import { type ButtonSize, type ButtonTone, buttonLook } from "./buttonLook";
import { cx } from "./cx";
import { photoWords as words } from "./photoWords";

export interface PhotoPickProps {
  onFile: (file: File) => void;
  /** What the photo will show, for those who cannot see the page around it. */
  of: string;
  size?: ButtonSize | undefined;
  tone?: ButtonTone | undefined;
  className?: string | undefined;
}

/** On a phone one tap opens the camera, and a second button its pictures; at a desk there is only the choosing. */
export function PhotoPick({ onFile, of, size, tone = "second", className }: PhotoPickProps) {
  const pick = (label: string, camera: boolean, look: string): ReactNode => (
    <label
      className={cx(look, "cursor-pointer has-[:focus-visible]:outline-3 has-[:focus-visible]:outline-brass")}
    >
      <input
        type="file"
        accept="image/*"
        capture={camera ? "environment" : undefined}
        className="sr-only"
        onChange={(event) => {
          const [file] = event.currentTarget.files ?? [];
          // Emptied, so that the same picture can be chosen again.
          event.currentTarget.value = "";
          if (file) onFile(file);
        }}
      />
      {label}
      <span className="sr-only"> {of}</span>
    </label>
  );
  return (
    <div className={cx("flex flex-wrap items-center gap-x-4 gap-y-2", className)}>
      {/* A wrapper hides it: a button's own look says how it is laid out. */}
      <span className="hidden pointer-coarse:contents">
        {pick(words.photoTake, true, cx(buttonLook(tone, size), "pointer-coarse:grow"))}
      </span>
      {pick(words.photoChoose, false, cx(buttonLook(tone, size), "pointer-coarse:grow"))}
    </div>
  );
}
