"use client";
import { useSyncExternalStore } from "react";
import { cx } from "./cx";
import { THEMES, type Theme, themeOf } from "./theme";
import { words } from "./words";

const root = () => document.documentElement;

function watch(changed: () => void): () => void {
  const observer = new MutationObserver(changed);
  observer.observe(root(), { attributes: true, attributeFilter: ["data-theme"] });
  return () => observer.disconnect();
}

function choose(theme: Theme): void {
  root().dataset.theme = theme;
  // biome-ignore lint/suspicious/noDocumentCookie: the Cookie Store API is not everywhere yet
  document.cookie = `theme=${theme}; path=/; max-age=31536000; samesite=lax`;
}

/** Day, night, or as the device says; kept in a cookie so that the server draws it right the first time. */
export function ThemeChoice() {
  const now = useSyncExternalStore(
    watch,
    () => themeOf(root().dataset.theme),
    () => undefined,
  );
  return (
    <fieldset className="flex gap-x-2.5">
      <legend className="sr-only">{words.look}</legend>
      {THEMES.map((theme) => (
        <button
          key={theme}
          type="button"
          aria-pressed={now === theme}
          onClick={() => choose(theme)}
          className={cx(
            "min-h-6 text-[14px] pointer-coarse:min-h-12 pointer-coarse:min-w-12",
            now === theme
              ? "font-semibold text-ink underline decoration-2 decoration-brass-fill underline-offset-4"
              : "text-soft",
          )}
        >
          {words[theme]}
        </button>
      ))}
    </fieldset>
  );
}
