"use client";
import type { ReactNode } from "react";
import { useShown } from "./formContext";

/** Inside a form: a value its action handed back to be shown once, with the words around it. Nothing before. */
export function Shown({ name, before, after }: { name: string; before?: ReactNode; after?: ReactNode }) {
  const value = useShown(name);
  if (value === undefined) return null;
  return (
    <div role="status" className="my-3 border-brass-fill border-l-4 bg-brass-wash px-4 py-3">
      {before}
      <output className="block break-all font-mono">{value}</output>
      {after}
    </div>
  );
}
