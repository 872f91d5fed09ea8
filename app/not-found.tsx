import type { Metadata } from "next";
import { buttonLook } from "./_ui/buttonLook";
import { Trouble } from "./_ui/Trouble";

export const metadata: Metadata = { title: "Not here · Throttlewright" };

export default function NotFound() {
  return (
    <main>
      <Trouble
        title="There is nothing here for you"
        acts={
          // A plain link: every page brings what this one needs.
          <a href="/" className={buttonLook("main")}>
            Go to the start
          </a>
        }
      >
        <p>The address may be mistyped, the thing may be gone, or it belongs to a shop you are not in.</p>
        <p>
          <strong>What to do:</strong> go to the start and look for it from there, or ask whoever sent you the
          link.
        </p>
      </Trouble>
    </main>
  );
}
