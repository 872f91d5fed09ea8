"use client";
import { type ReactNode, useState, useSyncExternalStore } from "react";
import { Button } from "./Button";
import { useShown } from "./formContext";

interface Props {
  before?: ReactNode;
  after?: ReactNode;
}

const never = () => () => {};
const mayShare = () => typeof navigator.share === "function";

/**
 * Inside a form: a customer's link that its action handed back to be shown once, to be copied, shared by the device's own
 * means, or read off the screen by a phone at the counter. The link itself stays to be copied by hand.
 */
export function ShownLink({ before, after }: Props) {
  const link = useShown("link");
  const code = useShown("code");
  const share = useSyncExternalStore(never, mayShare, () => false);
  const [said, setSaid] = useState("");
  if (link === undefined) return null;
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(link);
      setSaid("Copied.");
    } catch {
      setSaid("This browser does not let us copy: mark the link and copy it.");
    }
  };
  const pass = () => navigator.share({ url: link }).catch(() => {});
  const [size, path] = code?.split("|") ?? [];
  return (
    <div role="status" className="my-3 border-brass-fill border-l-4 bg-brass-wash px-4 py-3">
      {before}
      <output className="block break-all font-mono">{link}</output>
      <div className="mt-2 flex flex-wrap items-center gap-2">
        <Button onClick={copy}>Copy the link</Button>
        {share && <Button onClick={pass}>Share it</Button>}
        <span className="text-[14px]">{said}</span>
      </div>
      {size && path && (
        <details className="mt-2">
          <summary className="inline-flex min-h-12 items-center font-semibold text-brass underline underline-offset-[5px]">
            Show it as a code at the counter
          </summary>
          <svg
            role="img"
            viewBox={`0 0 ${size} ${size}`}
            className="block w-full max-w-[14rem]"
            shapeRendering="crispEdges"
          >
            <title>QR code of the customer's link</title>
            <rect width={size} height={size} fill="#ffffff" />
            <path d={path} fill="#000000" />
          </svg>
        </details>
      )}
      {after}
    </div>
  );
}
