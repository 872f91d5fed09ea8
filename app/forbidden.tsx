import type { Metadata } from "next";
import { buttonLook } from "./_ui/buttonLook";

export const metadata: Metadata = { title: "Your role may not see this · Throttlewright" };

/** Every page brings what this one needs, so it takes no component that a browser runs. */
export default function Forbidden() {
  return (
    <div className="mx-auto max-w-[560px] p-6">
      <h1 className="mb-5 border-ink border-b-2 pt-1.5 pb-2.5 font-bold text-[26px] leading-[1.2]">
        Your role may not see this
      </h1>
      <p className="mb-4">Ask an owner of the shop if you need it for your work.</p>
      <a href="/" className={buttonLook()}>
        Back to the shop
      </a>
    </div>
  );
}
